import type { DraftSide, DraftVertex, JobDraft } from "../../../../core/edits/draft.ts";
import { bulgedPoints } from "../../../../core/measure/sides.ts";
import { distance, markName } from "../../../../core/measure/walk.ts";
import type { Pt } from "../../../../papers/sheet.ts";
import type { App } from "../step.ts";

/** The outline as the measure step sees it: corners in the job's order, named as chalked. */
export interface Shape {
  names: readonly string[];
  points: readonly Pt[];
  /** As written, or as the tapes give it; bulges kept. */
  vertices: readonly DraftVertex[];
  /** Arcs flattened. */
  ring: readonly Pt[];
  /** True where tapes give the corners, not coordinates. */
  byTapes: boolean;
}

const known = new WeakMap<object, { record: App["record"]; shape: Shape | null }>();

/** Null while tapes do not yet hold a shape. The same object as long as job and plan are the same. */
export function shapeOf(app: App): Shape | null {
  const before = known.get(app.job);
  if (before && before.record === app.record) return before.shape;
  const shape = measured(app);
  known.set(app.job, { record: app.record, shape });
  return shape;
}

function measured({ job, record }: App): Shape | null {
  const { marks, outline } = job.site;
  if (outline && outline.length > 2)
    return shaped(
      outline.map((_, i) => markName(i)),
      outline,
      false,
    );
  if (!marks) return null;
  const adjusted = record?.survey.adjustment?.marks ?? [];
  const places = marks.map((name) => adjusted.find((mark) => mark.name === name));
  if (places.some((place) => !place)) return null;
  return shaped(
    marks,
    places.map((place): DraftVertex => [place!.xMm, place!.yMm]),
    true,
  );
}

function shaped(names: readonly string[], vertices: readonly DraftVertex[], byTapes: boolean): Shape {
  return { names, vertices, points: vertices.map(([x, y]): Pt => [x, y]), ring: bulgedPoints(vertices), byTapes };
}

/** The sides as written, one a corner; left out means walls. */
export function sidesOf(job: JobDraft): DraftSide[] {
  const count = job.site.outline?.length ?? job.site.marks?.length ?? 0;
  const sides = job.site.sides ?? [];
  return Array.from({ length: count }, (_, i) => sides[i] ?? "wall");
}

export function sideLength(shape: Shape, side: number): number {
  return distance(shape.points[side]!, shape.points[(side + 1) % shape.points.length]!);
}

/** Changes the measuring's own memory. */
export function remember(job: JobDraft, change: Partial<NonNullable<JobDraft["x-measure"]>>): void {
  const next = { ...job["x-measure"], ...change };
  for (const key of Object.keys(next) as (keyof typeof next)[]) if (next[key] === undefined) delete next[key];
  if (Object.keys(next).length === 0) delete job["x-measure"];
  else job["x-measure"] = next;
}
