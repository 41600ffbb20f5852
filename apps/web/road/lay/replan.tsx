import { useState } from "preact/hooks";
import type { ResumedSaid } from "../../desk/asks.ts";
import { Sign } from "../../look/sign.tsx";
import type { App } from "../step.ts";
import { resumeFrom, type SiteLog, takeResumed } from "./log.ts";

/** Planning on: what it found, for which plan, and how long it took. */
export interface Replan {
  busy: boolean;
  found: ResumedSaid | null;
  seconds: number;
  failed: boolean;
  taken: boolean;
  ask(plan: string): void;
  take(): void;
  drop(): void;
}

const NOTHING = { busy: false, found: null, seconds: 0, failed: false, taken: false };
type Held = Pick<Replan, "busy" | "found" | "seconds" | "failed" | "taken">;

export function useReplan(app: App, planHash: string): Replan {
  const [held, setHeld] = useState<Held & { of: string }>({ ...NOTHING, of: planHash });
  return {
    // What was said of an older plan is said no more; that a new plan was taken is.
    ...(held.of === planHash || held.taken || held.busy ? held : NOTHING),
    ask(plan) {
      setHeld({ ...NOTHING, busy: true, of: planHash });
      const start = performance.now();
      // The event that was just entered is in the store; the app's own copy follows with the next drawing.
      const now: App = { ...app, events: app.store.state.events };
      resumeFrom(now, plan).then(
        (found) => setHeld({ ...NOTHING, found, seconds: (performance.now() - start) / 1000, of: planHash }),
        () => setHeld({ ...NOTHING, failed: true, of: planHash }),
      );
    },
    take() {
      if (held.found?.ok) takeResumed({ ...app, events: app.store.state.events }, held.found);
      setHeld({ ...held, taken: true });
    },
    drop: () => setHeld({ ...NOTHING, of: planHash }),
  };
}

/** Paths whose change makes another plan; the others only pin what is there. */
const CHANGES_PLAN = /^(site\.|survey\.|board\.)/;

/** What the rest looks like now, in sentences; and the new plan to be taken, where it is another. */
export function Replanned({ app, replan, force = false }: { app: App; replan: Replan; force?: boolean }) {
  const { lay, write } = app.words;
  const { busy, found, failed, seconds, taken } = replan;
  if (!busy && !found && !failed) return null;
  const other = found?.ok && (force || found.changed.some((path) => CHANGES_PLAN.test(path)));
  return (
    <section class="replanned" aria-live="polite">
      <h3>{lay.replanned}</h3>
      {busy && <p>{lay.replanning}</p>}
      {failed && <p>{lay.failed}</p>}
      {found && (
        <>
          {found.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
          <p class="small">{lay.took(write.number(seconds, 1))}</p>
        </>
      )}
      {found?.ok && !found.proved && (
        <p>
          <Sign symbol="stop" /> {lay.unproved}
        </p>
      )}
      {taken ? (
        <p>
          <strong>{lay.taken}</strong>
        </p>
      ) : (
        found && (
          <div class="keys">
            {other && found.ok && found.proved && (
              <button type="button" class="main" disabled={app.stale} onClick={replan.take}>
                {lay.take}
              </button>
            )}
            <button type="button" onClick={replan.drop}>
              {other ? lay.keepPlan : app.words.shell.close}
            </button>
          </div>
        )
      )}
    </section>
  );
}

/** The job was changed while pieces lie by its earlier plan. */
export function OtherPlan({ app, log, replan }: { app: App; log: SiteLog; replan: Replan }) {
  const { lay, write } = app.words;
  const { plan, laid } = log.other!;
  return (
    <div class="row-stop">
      <p>
        <Sign symbol="warn" /> {lay.otherPlan(write.number(laid, 0))}
      </p>
      <button type="button" disabled={replan.busy || app.stale} onClick={() => replan.ask(plan)}>
        {lay.carryOn}
      </button>
      <Replanned app={app} replan={replan} force />
    </div>
  );
}
