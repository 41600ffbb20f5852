import { useEffect, useState } from "preact/hooks";
import type { PlanRecord } from "../../../../core/plan/record.ts";
import { line, mark, stroke, text } from "../../../../papers/ink.ts";
import type { Pt } from "../../../../papers/sheet.ts";
import { drawRow } from "./draw.ts";
import { Enter, type FormProps } from "./form.tsx";
import { enter } from "./log.ts";
import { OffBy } from "./off-by.tsx";

interface Run {
  source: number;
  from: Pt;
  to: Pt;
}

/** A side as it really runs: how far off the line from corner to corner, at both ends and in the middle. */
export function WallForm({ app, record, log, cards, by, done }: FormProps) {
  const { lay, measure, write } = app.words;
  const runs = straightSides(record);
  const [source, setSource] = useState(runs[0]?.source ?? 0);
  const [off, setOff] = useState<readonly [number, number, number]>([0, 0, 0]);
  const run = runs.find((one) => one.source === source) ?? runs[0];
  useEffect(() => {
    const row = drawRow(record, cards[0]!.row, log.state.laid);
    if (!run) return;
    const marks = stations(run, [0, 0, 0]).flatMap((at, i) => [
      mark("walls", at, "datum", 3, 0, "accent"),
      text(at, ` ${i + 1}`, { layer: "walls", bold: true, heightMm: 3.5, tone: "accent" }),
    ]);
    app.overlay([...row, line("walls", run.from, run.to, stroke("thick", "solid", "accent")), ...marks]);
    return () => app.overlay(row);
  }, [source]);
  if (!run) return null;
  const put = (at: number, value: number) =>
    setOff(off.map((one, i) => (i === at ? value : one)) as unknown as typeof off);
  return (
    <div class="form">
      <label class="field">
        <span class="field-name">{lay.side}</span>
        <select value={source} onChange={({ currentTarget: { value } }) => setSource(Number(value))}>
          {runs.map((one) => (
            <option key={one.source} value={one.source}>
              {lay.sideName(write.number(one.source + 1, 0), measure.sides.kinds[kindOf(record, one.source)])}
            </option>
          ))}
        </select>
      </label>
      <p>{lay.wallHint}</p>
      {lay.wallAt.map((name, i) => (
        <OffBy
          key={name}
          app={app}
          name={`${i + 1} ${name}`}
          value={off[i]!}
          set={(value) => put(i, value)}
          says={off[i] === 0 ? lay.onLine : off[i]! > 0 ? lay.into : lay.away}
        />
      ))}
      <Enter
        app={app}
        done={done}
        enter={() =>
          enter(app, log, by, { kind: "wall", side: source, points: stations(run, off) as [number, number][] })
        }
      />
    </div>
  );
}

function kindOf(record: PlanRecord, source: number) {
  return record.survey.sides.find((side) => side.source === source)!.kind;
}

/** Straight sides of the job, each from corner to corner. The outline runs counter-clockwise: inside is to the left. */
function straightSides(record: PlanRecord): Run[] {
  const { outline, sides } = record.survey;
  const n = outline.length;
  const runs: Run[] = [];
  for (let i = 0; i < n; i++) {
    const { source } = sides[i]!;
    if (sides[(i + n - 1) % n]!.source === source) continue;
    let end = i;
    let straight = outline[i]![2] === 0;
    while (sides[(end + 1) % n]!.source === source && end - i < n) {
      end++;
      straight &&= outline[end % n]![2] === 0;
    }
    const [a, b] = [outline[i]!, outline[(end + 1) % n]!];
    if (straight) runs.push({ source, from: [a[0], a[1]], to: [b[0], b[1]] });
  }
  return runs.sort((a, b) => a.source - b.source);
}

function stations({ from, to }: Run, off: readonly [number, number, number]): Pt[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.sqrt(dx * dx + dy * dy) || 1;
  const tenth = (mm: number) => Math.round(mm * 10) / 10;
  return off.map((mm, i) => [
    tenth(from[0] + (dx * i) / 2 - (dy / length) * mm),
    tenth(from[1] + (dy * i) / 2 + (dx / length) * mm),
  ]);
}
