/**
 * Rule 1, the field, by the judge's own construction. The planner moves sides and joins them into a loop; the judge
 * takes away what the gaps cover: behind each side the band between it and the moved side, at each corner the piece
 * between the band ends and the meeting of the moved lines, and each cut-out with its bands outside. What is left of
 * the outline is the field: a part that vanishes or turns over has nothing left by construction.
 */
import { TOLERANCE } from "../base/tolerances.ts";
import type { SurveyRecord } from "../stages/survey/record.ts";
import { pointsOf, twiceArea, type Walked, walkRing } from "./curve.ts";
import { areaOf, grow, join, minus, type Path, type Paths } from "./polygons.ts";
import { intoRows, type Turn } from "./turn.ts";

export interface Field {
  /** The field as drawn. */
  paths: Paths;
  /** Nothing may lie outside this: the field grown by what a gap may fall short. */
  most: Paths;
  /** Everything in here must be covered: the field shrunk by what a gap may exceed its nominal. */
  least: Paths;
  /** The outline itself and the cut-outs as they stand, not moved. */
  outline: Paths;
  cutouts: { name: string; height: "tall" | "flush" | "removable"; raw: Path; grown: Paths }[];
}

/** Rests of rounding along shared edges: no part of a field is this small, um2 (1 mm2). */
const SPECK_UM2 = 1e6;

/** The field in the row frame, whole micrometres. */
export function fieldOf(survey: SurveyRecord, turn: Turn): Field {
  const outline = walkRing(survey.outline);
  const gaps = survey.sides.map((side) => side.gapMm);
  const taken: Path[] = [];
  bands(outline, gaps, 1, turn, taken);
  const cutouts: Field["cutouts"] = [];
  for (const cutout of survey.cutouts) {
    const walked = walkRing(cutout.ring);
    const raw = turned(pointsOf(walked), turn);
    const own: Path[] = [raw];
    bands(
      walked,
      walked.map(() => cutout.gapMm),
      -1,
      turn,
      own,
    );
    const grown = join(own);
    cutouts.push({ name: cutout.name, height: cutout.height, raw, grown });
    taken.push(...grown);
  }
  const whole: Paths = [turned(pointsOf(outline), turn)];
  const paths = minus(whole, join(taken)).filter((path) => Math.abs(areaOf([path])) > SPECK_UM2);
  const touch = TOLERANCE.touchMm * 1000;
  return {
    paths,
    most: grow(paths, TOLERANCE.gapUnderMm * 1000 + touch),
    least: grow(paths, -TOLERANCE.gapOverMm * 1000 - touch),
    outline: whole,
    cutouts,
  };
}

/** Bands and corner pieces of a ring; `inward` 1 moves to the inside of the ring, -1 to the outside. */
function bands(sides: Walked[], gaps: number[], inward: 1 | -1, turn: Turn, out: Path[]): void {
  const n = sides.length;
  const orient = (twiceArea(pointsOf(sides)) >= 0 ? 1 : -1) * inward;
  const corners = sides.map((side, i) => corner(side, sides[(i + 1) % n]!, gaps[i]!, gaps[(i + 1) % n]!, orient));
  for (let i = 0; i < n; i++) {
    const side = sides[i]!;
    const gap = gaps[i]!;
    if (gap > 0) band(side, gap, orient, corners[(i + n - 1) % n]!, corners[i]!, turn, out);
    for (const piece of corners[i]!.pieces) push(piece, turn, out);
  }
}

interface Corner {
  /** Where the band before and the band after end, when not simply one gap off the vertex. */
  before: [number, number] | null;
  after: [number, number] | null;
  pieces: [number, number][][];
}

function corner(a: Walked, b: Walked, ga: number, gb: number, orient: number): Corner {
  const last = a.xs.length - 1;
  const vx = b.xs[0]!;
  const vy = b.ys[0]!;
  const [nax, nay] = [a.nx[last]! * orient, a.ny[last]! * orient];
  const [nbx, nby] = [b.nx[0]! * orient, b.ny[0]! * orient];
  // Directions of travel from the normals: the left normal turned clockwise.
  const [dax, day] = [a.ny[last]!, -a.nx[last]!];
  const [dbx, dby] = [b.ny[0]!, -b.nx[0]!];
  const cross = dax * dby - day * dbx;
  const ra: [number, number] = [vx + nax * ga, vy + nay * ga];
  const rb: [number, number] = [vx + nbx * gb, vy + nby * gb];
  const v: [number, number] = [vx, vy];
  const none: Corner = { before: null, after: null, pieces: [] };
  if (ga <= 0 && gb <= 0) return none;
  if (Math.abs(cross) < TOLERANCE.inLineSine) return { ...none, pieces: [[v, ra, rb]] };
  const wx = rb[0] - ra[0];
  const wy = rb[1] - ra[1];
  /** Meeting of the moved lines: t along a from ra, q along b from rb. */
  const t = (wx * dby - wy * dbx) / cross;
  const q = (wx * day - wy * dax) / cross;
  const m: [number, number] = [ra[0] + dax * t, ra[1] + day * t];
  const reflex = cross * orient < 0;
  if (!reflex) {
    const pieces: [number, number][][] = [];
    if (t > 0 && nearlyStraight(a, t)) pieces.push([v, ra, m]);
    if (q < 0 && nearlyStraight(b, q)) pieces.push([v, rb, m]);
    return { ...none, pieces };
  }
  if (t < 0 || q > 0) {
    // One gap is so much wider that the moved lines meet behind the end of its band.
    return {
      before: t < 0 && a.radius === 0 ? m : null,
      after: q > 0 && b.radius === 0 ? m : null,
      pieces: [
        [v, ra, m],
        [v, m, rb],
      ].filter((_, i) => (i === 0 ? t >= 0 : q <= 0)),
    };
  }
  const reach = TOLERANCE.mitreFactor * Math.max(ga, gb);
  const mx = m[0] - vx;
  const my = m[1] - vy;
  if (mx * mx + my * my <= reach * reach * (1 + 1e-9)) return { ...none, pieces: [[v, ra, m, rb]] };
  // Cut square: by the line across the corner's bisector at the reach.
  const bx = nax + nbx;
  const by = nay + nby;
  const length = Math.sqrt(bx * bx + by * by);
  const ex = length > 1e-9 ? bx / length : dax;
  const ey = length > 1e-9 ? by / length : day;
  const ta = (reach - ((ra[0] - vx) * ex + (ra[1] - vy) * ey)) / (dax * ex + day * ey);
  const tb = (reach - ((rb[0] - vx) * ex + (rb[1] - vy) * ey)) / (dbx * ex + dby * ey);
  return { ...none, pieces: [[v, ra, [ra[0] + dax * ta, ra[1] + day * ta], [rb[0] + dbx * tb, rb[1] + dby * tb], rb]] };
}

/** Carried on by this much an arc leaves its tangent by less than a chord may. */
function nearlyStraight(side: Walked, on: number): boolean {
  return side.radius === 0 || (on * on) / (2 * Math.abs(side.radius)) < TOLERANCE.chordMm;
}

function band(side: Walked, gap: number, orient: number, start: Corner, end: Corner, turn: Turn, out: Path[]): void {
  const n = side.xs.length;
  const moved: [number, number][] = [];
  // An arc whose radius the gap exceeds vanishes into its centre.
  const reach = side.radius * orient > 0 ? Math.min(gap, Math.abs(side.radius)) : gap;
  for (let i = 0; i < n; i++)
    moved.push([side.xs[i]! + side.nx[i]! * orient * reach, side.ys[i]! + side.ny[i]! * orient * reach]);
  if (side.radius === 0) {
    const from = start.after ?? moved[0]!;
    const to = end.before ?? moved[1]!;
    const ahead = (to[0] - from[0]) * side.ny[0]! - (to[1] - from[1]) * side.nx[0]! > 0;
    if (ahead) {
      moved[0] = from;
      moved[1] = to;
    }
    push([[side.xs[0]!, side.ys[0]!], [side.xs[1]!, side.ys[1]!], moved[1]!, moved[0]!], turn, out);
    return;
  }
  for (let i = 0; i + 1 < n; i++) {
    push([[side.xs[i]!, side.ys[i]!], [side.xs[i + 1]!, side.ys[i + 1]!], moved[i + 1]!, moved[i]!], turn, out);
  }
}

function push(points: [number, number][], turn: Turn, out: Path[]): void {
  const path = turned(points, turn);
  if (path.length >= 3) out.push(path);
}

/** Points in the row frame, whole micrometres, counter-clockwise, repeated points left out. */
export function turned(points: readonly (readonly [number, number])[], turn: Turn): Path {
  const path: Path = [];
  for (const [x, y] of points) {
    const [u, v] = intoRows(turn, x, y);
    const p = { x: Math.round(u) + 0, y: Math.round(v) + 0 };
    const before = path[path.length - 1];
    if (!before || before.x !== p.x || before.y !== p.y) path.push(p);
  }
  while (path.length > 1 && path[0]!.x === path[path.length - 1]!.x && path[0]!.y === path[path.length - 1]!.y)
    path.pop();
  return areaOf([path]) < 0 ? path.reverse() : path;
}
