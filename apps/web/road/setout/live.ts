import { useEffect, useRef, useState } from "preact/hooks";
import { jobText } from "../../../../core/edits/draft.ts";
import type { PlanRecord } from "../../../../core/plan/record.ts";
import type { App } from "../step.ts";

type BondDraft = NonNullable<App["job"]["bond"]>;
export interface Live {
  /** Shows what the job would be with this bond. */
  show(bond: Partial<BondDraft>): void;
  /** Takes it: one edit. */
  take(bond: Partial<BondDraft>): void;
  /** Shows the plan again. */
  drop(): void;
  /** Sentences of what is being tried: why it lies so, or what stands in its way. Null: nothing is tried. */
  says: readonly string[] | null;
  cannot: boolean;
}

/** The rows and joints that are tried on the site as it is; clips and cuts are left off until they are planned. */
function trialOf(record: PlanRecord, { setout, bond }: Pick<PlanRecord, "setout" | "bond">): PlanRecord {
  const fixing = { ...record.fixing, clips: [], screws: [] };
  return { ...record, setout, bond, fixing, cutting: { ...record.cutting, ends: [] } };
}

/** What of a plan every set-out of its job shares. */
export function judgedOf({ surface, preparation }: PlanRecord): Pick<PlanRecord, "surface" | "preparation"> {
  return { surface, preparation };
}

/** A set-out that is being moved: planned in a worker of its own and drawn, until it is taken or let go. */
export function useLive(app: App): Live {
  const [says, setSays] = useState<{ lines: readonly string[]; cannot: boolean } | null>(null);
  const turn = useRef(0);
  const latest = useRef(app);
  latest.current = app;
  const end = () => {
    turn.current++;
    setSays(null);
    latest.current.preview(null);
  };
  // The worker is started and warm before the first drag.
  useEffect(() => {
    const { job, words, trials, record } = latest.current;
    if (record)
      trials.live({ kind: "live", text: jobText(job), language: words.language, judged: judgedOf(record) }, () => {});
  }, []);
  // The trial stays on the drawing until the plan that was made of it is there.
  useEffect(() => {
    if (!app.stale) end();
  }, [app.stale, app.answer]);
  return {
    says: says?.lines ?? null,
    cannot: says?.cannot ?? false,
    show(bond) {
      const mine = ++turn.current;
      const { job, words, trials, preview, record } = latest.current;
      if (!record) return;
      const text = jobText({ ...job, bond: { ...job.bond, ...bond } });
      trials.live({ kind: "live", text, language: words.language, judged: judgedOf(record) }, (reply) => {
        if (mine !== turn.current) return;
        if (reply.kind === "trial") {
          preview(trialOf(record, reply));
          setSays({ lines: reply.reasons, cannot: false });
        } else if (reply.kind === "cannot") setSays({ lines: reply.says, cannot: true });
      });
    },
    take(bond) {
      turn.current++;
      latest.current.edit("bond", (job) => {
        job.bond = { ...job.bond, ...bond };
      });
    },
    drop: end,
  };
}
