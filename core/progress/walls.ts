import type { SideKind, Xy } from "../job/job.ts";
import type { SurveyRecord } from "../stages/survey/record.ts";

/** A measured end this near to a corner is that corner, mm. */
const CORNER_MM = 300;

export interface SideFile {
  kind: SideKind;
  gap: number;
  sill: number | null;
  opens: "in" | "out" | null;
  leafClear: number | null;
}
export interface Remeasured {
  outline: (readonly [x: number, y: number, bulge: number])[];
  sides: SideFile[];
}

/**
 * The outline with some sides as they were measured since: a side's run of edges becomes the measured points. An end
 * within 300 mm of the corner is the corner now; farther ones leave the corner where it was. Null where nothing changes.
 */
export function remeasure(survey: SurveyRecord, walls: ReadonlyMap<number, readonly Xy[]>): Remeasured | null {
  if (walls.size === 0) return null;
  const n = survey.outline.length;
  let outline = survey.outline.map((vertex, i) => ({ vertex, side: survey.sides[i]! }));
  for (const [source, measured] of walls) {
    const at = outline.findIndex(
      (one, i) => one.side.source === source && outline[(i + n - 1) % n]?.side.source !== source,
    );
    if (at < 0) continue;
    // the run begins at the front, so that it does not wrap round the end of the list
    const turned = [...outline.slice(at), ...outline.slice(0, at)];
    const end = turned.findIndex((one) => one.side.source !== source);
    if (end < 0) continue;
    const [first, next] = [turned[0]!, turned[end]!];
    const points =
      near(measured[0]!, first.vertex) <= near(measured[measured.length - 1]!, first.vertex)
        ? [...measured]
        : [...measured].reverse();
    const run: typeof outline = [];
    if (near(points[0]!, first.vertex) > CORNER_MM)
      run.push({ vertex: [first.vertex[0], first.vertex[1], 0], side: first.side });
    const last = points[points.length - 1]!;
    const lastIsCorner = near(last, next.vertex) <= CORNER_MM;
    for (const [x, y] of lastIsCorner ? points.slice(0, -1) : points) run.push({ vertex: [x, y, 0], side: first.side });
    const corner: (typeof outline)[number] = lastIsCorner
      ? { vertex: [last[0], last[1], next.vertex[2]], side: next.side }
      : next;
    outline = [...run, corner, ...turned.slice(end + 1)];
  }
  return {
    outline: outline.map((one) => one.vertex),
    sides: outline.map(({ side: { kind, gapMm, sill, opens, leafClear } }) => ({
      kind,
      gap: gapMm,
      sill,
      opens,
      leafClear,
    })),
  };
}

function near(p: Xy, q: readonly number[]): number {
  const [dx, dy] = [p[0] - q[0]!, p[1] - q[1]!];
  return Math.sqrt(dx * dx + dy * dy);
}
