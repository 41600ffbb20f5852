import { useEffect, useRef, useState } from "preact/hooks";
import { jobText } from "../../../../core/edits/draft.ts";
import type { Variant } from "../../../../core/plan/variants.ts";
import type { App } from "../step.ts";
import { judgedOf } from "./live.ts";
import { alike } from "./walls.ts";

/** Bonds and directions side by side, each with its small drawing; a tap takes one. */
export function Variants({ app }: { app: App }) {
  const words = app.words.setout.variants;
  const [found, setFound] = useState<{ version: number; list: readonly Variant[]; left: number } | null>(null);
  const stop = useRef<(() => void) | null>(null);
  useEffect(() => () => stop.current?.(), []);
  const { version } = app.store.state;
  const begin = () => {
    stop.current?.();
    const record = app.record!;
    const nowDeg = record.setout.frame.angleDeg;
    setFound({ version, list: [], left: -1 });
    stop.current = app.trials.variants(
      { kind: "variants", text: jobText(app.job), language: app.words.language, judged: judgedOf(record), nowDeg },
      (reply) => {
        if (reply.kind === "variants") setFound({ version, list: reply.variants, left: reply.left });
        else setFound(null);
      },
    );
  };
  const end = () => {
    stop.current?.();
    setFound((now) => now && { ...now, left: 0 });
  };
  const working = found !== null && found.left !== 0;
  return (
    <section>
      <h3>{words.head}</h3>
      <p class="small">{words.hint}</p>
      <div class="keys">
        <button type="button" disabled={!working && app.stale} onClick={working ? end : begin}>
          {working ? words.stop : words.start}
        </button>
      </div>
      <p class="small" role="status">
        {working && found.left > 0 ? words.left(found.left) : ""}
        {found && !working && found.version !== version ? words.old : ""}
      </p>
      {found && found.list.length > 0 && (
        <ul class="plain variants">
          {found.list.map((variant) => (
            <Way key={`${variant.kind} ${variant.angleDeg}`} app={app} variant={variant} />
          ))}
        </ul>
      )}
    </section>
  );
}

function Way({ app, variant }: { app: App; variant: Variant }) {
  const { setout, write } = app.words;
  const words = setout.variants;
  const { figures: f, kind, angleDeg } = variant;
  const angle = setout.degrees(write.number(angleDeg, angleDeg % 1 === 0 ? 0 : 1));
  const way = words.way(setout.kinds[kind], angle);
  const plan = app.record!;
  const now = plan.bond.kind === kind && alike(plan.setout.frame.angleDeg, angleDeg);
  const mm = (value: number | null) => (value === null ? words.none : app.words.pad.mm(write.mm(value)));
  const facts: [string, string][] = [
    [words.columns.cost, write.money(f.costMinor, plan.job.currency)],
    [words.columns.boards, words.boards(write.mm(f.boards), write.mm(f.boardsAtLeast))],
    [words.columns.cuts, words.cuts(write.mm(f.cuts), write.mm(f.rips))],
    [words.columns.rip, mm(f.smallestRipMm)],
    [words.columns.piece, mm(f.smallestPieceMm)],
    [words.columns.findings, words.findings(f.stops, f.warnings)],
  ];
  return (
    <li data-now={now ? "true" : undefined}>
      <button
        type="button"
        aria-label={words.take(way)}
        disabled={now}
        onClick={() =>
          app.edit("bond", (job) => {
            const { shift, firstRow, locked, ...bond } = job.bond ?? {};
            job.bond = { ...bond, kind, angle: angleDeg };
          })
        }
      >
        <Picture variant={variant} />
        <span class="way">
          <strong>{way}</strong>
          {now && <em>{words.now}</em>}
          {variant.unbeaten && (
            <span class="unbeaten">
              <svg width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
                <path d="M1 6.5L4.5 10L11 2" />
              </svg>
              {words.unbeaten}
            </span>
          )}
        </span>
      </button>
      <dl>
        {facts.map(([name, fact]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{fact}</dd>
          </div>
        ))}
      </dl>
      {f.unpriced > 0 && <p class="small">{words.unpriced(f.unpriced)}</p>}
    </li>
  );
}

const PICTURE = { width: 132, height: 92 };

/** The boards of a way, small. */
function Picture({ variant: { picture } }: { variant: Variant }) {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < picture.length; i += 2) {
    const [x, y] = [picture[i]!, picture[i + 1]!];
    if (Number.isNaN(x)) continue;
    x0 = Math.min(x0, x);
    x1 = Math.max(x1, x);
    y0 = Math.min(y0, y);
    y1 = Math.max(y1, y);
  }
  const scale = Math.min(PICTURE.width / (x1 - x0), PICTURE.height / (y1 - y0)) || 1;
  let path = "";
  let begun = false;
  for (let i = 0; i < picture.length; i += 2) {
    const [x, y] = [picture[i]!, picture[i + 1]!];
    if (Number.isNaN(x)) {
      path += "Z";
      begun = false;
    } else {
      path += `${begun ? "L" : "M"}${((x - x0) * scale).toFixed(1)} ${((y1 - y) * scale).toFixed(1)}`;
      begun = true;
    }
  }
  return (
    <svg class="boards" width={PICTURE.width} height={PICTURE.height} aria-hidden="true">
      <path d={path} />
    </svg>
  );
}
