/** Turning and moving a whole job, so that the corners lie where tapes will have them: the first at 0, 0, the second along +x. */
import type { DraftVertex, JobDraft } from "../edits/draft.ts";
import { degreesOf } from "../geometry/direction.ts";
import { outlineSign } from "./place.ts";
import { markName } from "./walk.ts";

/**
 * Lets the tapes shape an outline given by coordinates: marks in place of coordinates, counter-clockwise, and everything
 * measured in the outline's frame moved into the tapes' frame. Changes the job given.
 */
export function shapeByTapes(job: JobDraft): void {
  const outline = job.site.outline;
  if (!outline || outline.length < 3) return;
  const n = outline.length;
  const backward = outlineSign(outline) < 0;
  // walked clockwise: begin with the second corner and go back, so that the first side stays the first
  const order = Array.from({ length: n }, (_, i) => (backward ? (n + 1 - i) % n : i));
  const [a, b] = [outline[order[0]!]!, outline[order[1]!]!];
  const length = Math.sqrt((b[0] - a[0]) * (b[0] - a[0]) + (b[1] - a[1]) * (b[1] - a[1]));
  const way = [(b[0] - a[0]) / length, (b[1] - a[1]) / length] as const;
  const { sides, offsets } = job.site;
  if (backward && sides && sides.length === n) job.site.sides = sides.map((_, i) => sides[(n - i) % n]!);
  if (backward && offsets)
    job.site.offsets = offsets.map(({ side = 0, along = 0, offset = 0 }) => {
      const [from, to] = [outline[side]!, outline[(side + 1) % n]!];
      const long = Math.sqrt((to[0] - from[0]) * (to[0] - from[0]) + (to[1] - from[1]) * (to[1] - from[1]));
      return { side: (n - side) % n, along: long - along, offset: -offset };
    });
  moveAll(job, a, way);
  delete job.site.outline;
  job.site.marks = order.map(markName);
}

type Way = readonly [number, number];

function moveAll(job: JobDraft, from: readonly [number, number, number?], [c, s]: Way): void {
  if (from[0] === 0 && from[1] === 0 && c === 1) return;
  const at = ([x, y]: readonly [number, number, ...unknown[]]): [number, number] => [
    tidy((x - from[0]) * c + (y - from[1]) * s),
    tidy((y - from[1]) * c - (x - from[0]) * s),
  ];
  const ring = <T extends readonly [number, number, ...number[]]>(points: readonly T[] | undefined | null): T[] =>
    (points ?? []).map((point) => [...at(point), ...point.slice(2)] as unknown as T);
  const { site, survey, bond } = job;
  for (const areas of [site.cutouts, site.noDrill, site.keepClear, site.loose])
    for (const area of areas ?? []) area.ring = ring(area.ring) as typeof area.ring;
  if (site.slab) site.slab = ring<DraftVertex>(site.slab);
  if (site.baseJoints) site.baseJoints = site.baseJoints.map((line) => ring(line as [number, number][])) as never;
  if (survey?.levels) survey.levels = ring(survey.levels as [number, number, number][]) as typeof survey.levels;
  for (const edge of survey?.straightedges ?? []) {
    if (edge.from) edge.from = at(edge.from as [number, number]) as typeof edge.from;
    if (edge.to) edge.to = at(edge.to as [number, number]) as typeof edge.to;
  }
  if (!bond) return;
  if (bond.startAt) bond.startAt = at(bond.startAt as [number, number]) as typeof bond.startAt;
  if (typeof bond.angle === "number") bond.angle = tidy((bond.angle - degreesOf(c, s) + 720) % 360);
  // joints are locked at places of the row frame, which has moved
  delete bond.locked;
}

function tidy(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}
