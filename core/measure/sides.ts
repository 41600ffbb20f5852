/** Sides of an outline as drawn and tapped: arcs flattened, the nearest side, a side parted. All mm. */
import type { DraftSide, DraftVertex, JobDraft } from "../edits/draft.ts";
import { flattenRing } from "../geometry/arc.ts";
import { markName } from "./walk.ts";

type Pt = readonly [x: number, y: number];

/** A ring with bulges as plain points. */
export function bulgedPoints(ring: readonly DraftVertex[]): Pt[] {
  return flattenRing(ring.map(([x, y, bulge = 0]) => [x, y, bulge] as const));
}

/** The side nearest to a point, and how far it is; by its chord. */
export function nearestSide(points: readonly Pt[], at: Pt): { side: number; away: number } {
  let best = { side: 0, away: Number.POSITIVE_INFINITY };
  points.forEach((a, side) => {
    const away = awayFrom(a, points[(side + 1) % points.length]!, at);
    if (away < best.away) best = { side, away };
  });
  return best;
}

function awayFrom(a: Pt, b: Pt, [x, y]: Pt): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const squared = dx * dx + dy * dy;
  const share = squared === 0 ? 0 : Math.min(1, Math.max(0, ((x - a[0]) * dx + (y - a[1]) * dy) / squared));
  const [ex, ey] = [a[0] + dx * share - x, a[1] + dy * share - y];
  return Math.sqrt(ex * ex + ey * ey);
}

/**
 * Makes part of a straight side another side: corners are put in where it begins and ends. Tapes between named corners follow
 * the corners' new names; offsets of later sides too. False where the part does not lie on the side.
 */
export function partSide(job: JobDraft, side: number, fromMm: number, wideMm: number, kind: DraftSide): boolean {
  const { outline } = job.site;
  const [a, b] = [outline?.[side], outline?.[(side + 1) % (outline?.length ?? 1)]];
  if (!outline || !a || !b || (a[2] ?? 0) !== 0) return false;
  const length = Math.sqrt((b[0] - a[0]) * (b[0] - a[0]) + (b[1] - a[1]) * (b[1] - a[1]));
  if (fromMm < 0 || wideMm <= 0 || fromMm + wideMm > length + 0.5) return false;
  const at = (mm: number): DraftVertex => [
    tidy(a[0] + ((b[0] - a[0]) * mm) / length),
    tidy(a[1] + ((b[1] - a[1]) * mm) / length),
  ];
  const old = outline.map((_, i) => job.site.sides?.[i] ?? "wall");
  const starts = fromMm > 0.5;
  const ends = fromMm + wideMm < length - 0.5;
  const corners = [...(starts ? [at(fromMm)] : []), ...(ends ? [at(fromMm + wideMm)] : [])];
  const kinds = [...(starts ? [old[side]!] : []), kind, ...(ends ? [old[side]!] : [])];
  outline.splice(side + 1, 0, ...corners);
  job.site.sides = [...old.slice(0, side), ...kinds, ...old.slice(side + 1)];
  renumber(job, side, corners.length);
  return true;
}

/** After corners are put in behind corner `after`: names of later corners move on. */
export function renumber(job: JobDraft, after: number, count: number): void {
  if (job.survey?.ties) {
    const moved = new Map<string, string>();
    for (let i = 0; i < 200; i++) moved.set(markName(i), markName(i > after ? i + count : i));
    const ties = job.survey.ties as [string, string, number][];
    job.survey.ties = ties.map(([a, b, mm]) => [moved.get(a) ?? a, moved.get(b) ?? b, mm]);
  }
  for (const offset of job.site.offsets ?? []) if ((offset.side ?? 0) > after) offset.side = (offset.side ?? 0) + count;
}

/** Takes a corner out; the side that ended there goes on to the next corner. Tapes to it go too. False where too few are left. */
export function dropCorner(job: JobDraft, corner: number): boolean {
  const { outline } = job.site;
  if (!outline || outline.length < 4) return false;
  const old = outline.map((_, i) => job.site.sides?.[i] ?? "wall");
  outline.splice(corner, 1);
  job.site.sides = old.filter((_, i) => i !== corner);
  if (job.survey?.ties) {
    const gone = markName(corner);
    job.survey.ties = job.survey.ties.filter(([a, b]) => a !== gone && b !== gone);
    renumber(job, corner, -1);
  }
  if (job.site.offsets) job.site.offsets = job.site.offsets.filter(({ side }) => side !== corner);
  return true;
}

function tidy(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}
