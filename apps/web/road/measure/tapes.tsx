import { useEffect, useMemo, useState } from "preact/hooks";
import { shapeByTapes } from "../../../../core/measure/move.ts";
import { key, nextTie, tiesNeeded, withTie } from "../../../../core/measure/ties.ts";
import { distance } from "../../../../core/measure/walk.ts";
import type { Item } from "../../../../papers/sheet.ts";
import { LengthPad } from "../../pad/length-pad.tsx";
import { sayLength, sayMm } from "../../pad/say.ts";
import type { App } from "../step.ts";
import { drawCorners, drawTape } from "./draw.ts";
import { useQuiet } from "./quiet.ts";
import { type Shape, shapeOf } from "./shape.ts";

type Tie = [from: string, to: string, mm: number];
interface Judged {
  tie: Tie;
  /** Adjusted or drawn distance less the measured one, mm; null where nothing can be said. */
  offMm: number | null;
  shouldMm: number | null;
  doubtful: boolean;
}

/** Tapes between corners: sides, diagonals, any. They prove the drawn shape, or shape it. */
export function Tapes({ app }: { app: App }) {
  const shape = shapeOf(app);
  if (!shape && !app.job.site.marks) return <p>{app.words.measure.things.needShape}</p>;
  return <TapesOf app={app} shape={shape} />;
}

function TapesOf({ app, shape }: { app: App; shape: Shape | null }) {
  useQuiet(app);
  const { words, units, job, record } = app;
  const said = words.measure.tapes;
  const names = shape?.names ?? job.site.marks ?? [];
  const ties = (job.survey?.ties ?? []) as Tie[];
  const proposal = useMemo(() => nextTie(names, shape?.points ?? [], ties), [job, record]);
  const [own, setOwn] = useState<[string, string] | null>(null);
  const pair = own ?? proposal ?? [names[0]!, names[Math.floor(names.length / 2)]!];
  const judged = useMemo(() => judge(app, shape, ties), [job, record, app.stale]);
  const say = (mm: number) => sayLength(words, units, mm);
  useEffect(() => {
    if (!shape) return;
    const at = new Map(shape.names.map((name, i) => [name, shape.points[i]!]));
    const items: Item[] = judged.flatMap(({ tie: [a, b, mm], offMm, doubtful }) =>
      at.has(a) && at.has(b)
        ? drawTape(
            at.get(a)!,
            at.get(b)!,
            Math.abs(offMm ?? 0) < 0.5 || doubtful ? say(mm) : `${say(mm)}, ${offText(app, offMm)}`,
            doubtful ? said.doubtful : null,
          )
        : [],
    );
    app.overlay([...items, ...drawCorners(shape.names, shape.points)]);
  }, [judged, units, words]);
  const take = (mm: number) => {
    setOwn(null);
    app.edit("ties", (next) => {
      next.survey = { ...next.survey, ties: withTie(ties, pair[0], pair[1], mm) };
    });
  };
  const known = ties.filter(([a, b]) => names.includes(a) && names.includes(b)).length;
  const missing = tiesNeeded(names.length) - known;
  const bent = job.site.outline?.some((vertex) => (vertex[2] ?? 0) !== 0) ?? false;
  const bad = judged.filter(({ doubtful }) => doubtful);
  return (
    <section>
      <p class="hint">{said.hint}</p>
      {bad.map(({ tie: [a, b, mm], shouldMm }) => (
        <p key={key(a, b)} class="doubt" role="status">
          {said.doubtfulSays(a, b, say(mm), say(shouldMm!))}
        </p>
      ))}
      <div class="pair">
        <MarkSelect
          label={said.from}
          names={names}
          value={pair[0]}
          set={(name) => setOwn([name, pair[1] === name ? pair[0] : pair[1]])}
        />
        <MarkSelect
          label={said.to}
          names={names}
          value={pair[1]}
          set={(name) => setOwn([pair[0] === name ? pair[1] : pair[0], name])}
        />
      </div>
      <LengthPad
        app={app}
        label={said.tape(pair[0], pair[1])}
        last={ties[ties.length - 1]?.[2] ?? null}
        onNext={take}
      />
      {shape?.byTapes ? (
        <p role="status">{said.taken(record?.survey.adjustment?.redundancy ?? 0)}</p>
      ) : bent ? (
        <p>{said.arcs}</p>
      ) : missing > 0 ? (
        <p>{said.more(missing)}</p>
      ) : (
        <button type="button" class="wide do" onClick={() => app.edit("ties", shapeByTapes)}>
          {said.take}
        </button>
      )}
      <ul class="plain list">
        {judged.map(({ tie: [a, b, mm], offMm, doubtful }) => (
          <li key={key(a, b)} data-doubtful={doubtful ? "true" : undefined}>
            <span>{said.tape(a, b)}</span>
            <span>{say(mm)}</span>
            <span>{doubtful ? `${said.doubtful}, ${offText(app, offMm)}` : offText(app, offMm)}</span>
            <button
              type="button"
              aria-label={said.remove(a, b)}
              onClick={() =>
                app.edit("ties", (next) => {
                  next.survey = { ...next.survey, ties: ties.filter((tie) => key(tie[0], tie[1]) !== key(a, b)) };
                })
              }
            >
              {"\u00d7"}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

function offText({ words }: App, offMm: number | null): string {
  if (offMm === null) return "";
  if (Math.abs(offMm) < 0.5) return words.measure.tapes.fits;
  return words.measure.tapes.off(`${offMm > 0 ? "+" : ""}${sayMm(words, Math.round(offMm))}`);
}

/** Residuals of the adjustment, or of the tape against the drawing where coordinates hold. */
function judge({ record, job }: App, shape: Shape | null, ties: readonly Tie[]): Judged[] {
  const adjusted = job.site.marks ? (record?.survey.adjustment?.ties ?? []) : [];
  return ties.map((tie) => {
    const known = adjusted.find(
      ({ from, to, measuredMm }) => key(from, to) === key(tie[0], tie[1]) && measuredMm === tie[2],
    );
    if (known) return { tie, offMm: -known.residualMm, shouldMm: known.adjustedMm, doubtful: known.doubtful };
    const [i, j] = [shape?.names.indexOf(tie[0]) ?? -1, shape?.names.indexOf(tie[1]) ?? -1];
    if (!shape || shape.byTapes || i < 0 || j < 0) return { tie, offMm: null, shouldMm: null, doubtful: false };
    const drawn = distance(shape.points[i]!, shape.points[j]!);
    return { tie, offMm: tie[2] - drawn, shouldMm: drawn, doubtful: false };
  });
}

function MarkSelect(props: { label: string; names: readonly string[]; value: string; set(name: string): void }) {
  return (
    <label class="field">
      <span>{props.label}</span>
      <select value={props.value} onChange={(event) => props.set(event.currentTarget.value)}>
        {props.names.map((name) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}
