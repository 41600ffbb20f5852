import { directionOf } from "../geometry/direction.ts";
import { addPoint, emptySums, type FallingPlane, fitPlane, solvePlane, subtractSums } from "../geometry/plane.ts";
import { minimumZone, type Zone } from "./minimum-zone.ts";

type Xyz = readonly [number, number, number];
/** The half-plane nx x + ny y <= d (mm), n a unit vector. */
export interface HalfPlane {
  nx: number;
  ny: number;
  d: number;
}
/** A part of the base that one plane fits: where it lies, its points, its planes. */
export interface PlanePart {
  within: HalfPlane[];
  points: number[];
  plane: FallingPlane;
  zone: Zone;
  /** The point that matters most to the zone, and the mean of the points. */
  worstAt: [x: number, y: number];
  middle: [x: number, y: number];
}

/** Directions of the dividing line tried, degrees apart. */
const SPLIT_STEP_DEG = 7.5;
/** A split is kept where the worst part's half width is at most this share of the whole's ... */
const GAIN = 0.5;
/** ... and the planes differ in slope by at least this, so that a single bump does not make a ridge. */
const LEAST_BEND = 0.005;
const LEAST_POINTS = 4;
const MOST_PARTS = 4;

/**
 * The base as one plane, or, where one plane misses by more than `toleranceMm` (half width) and two or more fit far
 * better, as parts that meet in ridges or valleys, each with its own planes. The dividing line is found by least squares
 * over all directions (7.5 degrees apart) and all breaks between points, in constant time a break by running sums; it is
 * then moved to where the two planes really meet. Null where the points do not span a plane. O(n log n) a direction.
 */
export function findParts(points: readonly Xyz[], toleranceMm: number): PlanePart[] | null {
  const whole = partOf(
    points,
    points.map((_, i) => i),
    [],
  );
  if (!whole) return null;
  const parts = [whole];
  for (let k = 0; k < parts.length && parts.length < MOST_PARTS; ) {
    const split = parts[k]!.zone.halfWidth > toleranceMm ? splitPart(points, parts[k]!) : null;
    if (split) parts.splice(k, 1, ...split);
    else k++;
  }
  return parts;
}

/** Index of the part a place belongs to. */
export function partAt(parts: readonly PlanePart[], x: number, y: number): number {
  for (let k = 0; k < parts.length; k++) if (holds(parts[k]!.within, x, y)) return k;
  return parts.length - 1;
}

function holds(within: HalfPlane[], x: number, y: number): boolean {
  return within.every((h) => h.nx * x + h.ny * y <= h.d);
}

function partOf(points: readonly Xyz[], indices: number[], within: HalfPlane[]): PlanePart | null {
  const own = indices.map((i) => points[i]!);
  const plane = fitPlane(own);
  const zone = plane ? minimumZone(own) : null;
  if (!plane || !zone) return null;
  let most = zone.certificate[0];
  for (const p of zone.certificate) if (Math.abs(p.weight) > Math.abs(most!.weight)) most = p;
  const worst = own[most?.index ?? 0]!;
  const middle: [number, number] = [0, 0];
  for (const p of own) {
    middle[0] += p[0] / own.length;
    middle[1] += p[1] / own.length;
  }
  return { within, points: indices, plane, zone, worstAt: [worst[0], worst[1]], middle };
}

function splitPart(points: readonly Xyz[], part: PlanePart): [PlanePart, PlanePart] | null {
  const line = bestLine(points, part.points);
  if (!line) return null;
  let best: [PlanePart, PlanePart] | null = null;
  let divided = line;
  for (let round = 0; round < 8; round++) {
    const pair = divide(points, part, divided);
    if (!pair) break;
    // The line where the planes meet is taken even where it is only as good: it is where the base bends.
    if (best && worst(pair) > worst(best) + 1e-9) break;
    best = pair;
    const met = meetingLine(pair[0].plane, pair[1].plane, divided);
    if (!met || (met.nx === divided.nx && met.ny === divided.ny && met.d === divided.d)) break;
    divided = met;
  }
  if (!best) return null;
  const da = best[0].plane.a - best[1].plane.a;
  const db = best[0].plane.b - best[1].plane.b;
  const bend = Math.sqrt(da * da + db * db);
  return bend >= LEAST_BEND && worst(best) <= GAIN * part.zone.halfWidth ? best : null;
}

function worst(pair: readonly PlanePart[]): number {
  return Math.max(...pair.map((p) => p.zone.halfWidth));
}

function divide(points: readonly Xyz[], part: PlanePart, line: HalfPlane): [PlanePart, PlanePart] | null {
  const near: number[] = [];
  const far: number[] = [];
  for (const i of part.points) {
    const side = line.nx * points[i]![0] + line.ny * points[i]![1] - line.d;
    (side <= 1e-6 ? near : far).push(i);
  }
  if (near.length < LEAST_POINTS || far.length < LEAST_POINTS) return null;
  const a = partOf(points, near, [...part.within, line]);
  const b = partOf(points, far, [...part.within, { nx: -line.nx + 0, ny: -line.ny + 0, d: -line.d + 0 }]);
  return a && b ? [a, b] : null;
}

/** The straight line that splits the points into two sets with the least squares of their own planes together. */
function bestLine(points: readonly Xyz[], indices: number[]): HalfPlane | null {
  const [ox, oy, oz] = points[indices[0]!]!;
  let best: HalfPlane | null = null;
  let least = Number.POSITIVE_INFINITY;
  const all = emptySums();
  for (const i of indices) addPoint(all, points[i]![0] - ox, points[i]![1] - oy, points[i]![2] - oz);
  for (let deg = 0; deg < 180; deg += SPLIT_STEP_DEG) {
    const [nx, ny] = directionOf(deg);
    const order = indices.map((i) => ({ i, t: nx * points[i]![0] + ny * points[i]![1] }));
    order.sort((p, q) => p.t - q.t || p.i - q.i);
    const sums = emptySums();
    for (let k = 0; k + LEAST_POINTS < order.length; k++) {
      const p = points[order[k]!.i]!;
      addPoint(sums, p[0] - ox, p[1] - oy, p[2] - oz);
      if (k + 1 < LEAST_POINTS || order[k + 1]!.t - order[k]!.t < 1e-6) continue;
      const near = solvePlane(sums);
      const far = near ? solvePlane(subtractSums(all, sums)) : null;
      if (!near || !far || near.squares + far.squares >= least - 1e-9) continue;
      least = near.squares + far.squares;
      best = { nx, ny, d: (order[k]!.t + order[k + 1]!.t) / 2 };
    }
  }
  return best;
}

/** Where two planes are equally high, turned so that the first plane keeps its side. Null where they run parallel. */
function meetingLine(p: FallingPlane, q: FallingPlane, old: HalfPlane): HalfPlane | null {
  const a = p.a - q.a;
  const b = p.b - q.b;
  const size = Math.sqrt(a * a + b * b);
  if (size < 1e-9) return null;
  const side = a * old.nx + b * old.ny < 0 ? -1 : 1;
  return { nx: (side * a) / size + 0, ny: (side * b) / size + 0, d: (side * (q.c - p.c)) / size + 0 };
}
