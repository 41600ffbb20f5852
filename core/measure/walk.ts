/** A walk round the outline with the tape: each side's length, and how one turned before it. Right angles assumed. */
import type { DraftVertex } from "../edits/draft.ts";

export type Turn = "left" | "right" | "straight";
export interface Leg {
  mm: number;
  /** Turn before this side; the first side has none and runs along +x. */
  turn: Turn;
}
type Pt = readonly [x: number, y: number];

/** A way back to the start: the sides that are not typed but follow. */
export interface Closing {
  /** Corners added after the last typed one. */
  corners: Pt[];
  /** Lengths of the sides that close the outline, in order, mm. */
  sides: number[];
  square: boolean;
}

/** The corners walked so far, the start first; one more than there are legs. */
export function walkPoints(legs: readonly Leg[]): Pt[] {
  const out: Pt[] = [[0, 0]];
  let [dx, dy] = [1, 0];
  legs.forEach(({ mm, turn }, i) => {
    if (i > 0 && turn === "left") [dx, dy] = [-dy + 0, dx];
    if (i > 0 && turn === "right") [dx, dy] = [dy, -dx + 0];
    const [x, y] = out[out.length - 1]!;
    out.push([tidy(x + dx * mm), tidy(y + dy * mm)]);
  });
  return out;
}

/** The ways to close the outline, those with right angles first; empty before two legs. A way that crosses the walk is none. */
export function closings(legs: readonly Leg[]): Closing[] {
  const points = walkPoints(legs);
  const last = points[points.length - 1]!;
  const found: Closing[] = [];
  if (legs.length < 2) return found;
  if (points.length > 3 && same(last, points[0]!)) return [{ corners: [], sides: [], square: true }];
  const add = (corners: Pt[]) => {
    const ring = [...points, ...corners];
    const bare = ring.length > 3 || corners.length === 0;
    if (!bare || !simple(ring)) return;
    const ends = [last, ...corners, points[0]!];
    const sides = ends.slice(1).map((to, i) => distance(ends[i]!, to));
    if (sides.some((mm) => mm < 1)) return;
    const square = ends.slice(1).every((to, i) => to[0] === ends[i]![0] || to[1] === ends[i]![1]);
    found.push({ corners, sides, square });
  };
  const aligned = last[0] === 0 || last[1] === 0;
  if (!aligned) {
    add([[0, last[1]]]);
    add([[last[0], 0]]);
  }
  add([]);
  return found.filter(({ corners }) => ringAreaMm2([...points, ...corners]) !== 0);
}

/** The outline of a closed walk, first corner at the origin. */
export function closedWalk(legs: readonly Leg[], closing: Closing): DraftVertex[] {
  const points = walkPoints(legs);
  if (same(points[points.length - 1]!, points[0]!)) points.pop();
  return [...points, ...closing.corners].map(([x, y]): DraftVertex => [x, y]);
}

/** Names for corners as chalked on site: A to Z, then A2 ... */
export function markName(index: number): string {
  const turn = Math.floor(index / 26);
  return String.fromCharCode(65 + (index % 26)) + (turn === 0 ? "" : String(turn + 1));
}

/** The typed sides as tapes between named corners. */
export function walkTies(legs: readonly Leg[], corners: number): [string, string, number][] {
  return legs.map(({ mm }, i) => [markName(i), markName((i + 1) % corners), mm]);
}

/** True where no side crosses or touches another but its neighbours at their corner. */
export function simple(ring: readonly Pt[]): boolean {
  for (let i = 0; i < ring.length; i++) {
    const [a, b] = [ring[i]!, ring[(i + 1) % ring.length]!];
    const c = ring[(i + 2) % ring.length]!;
    // the next side may run straight on, but not back over this one
    if (side(a, b, c) === 0 && (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) < 0) return false;
    for (let j = i + 2; j < ring.length; j++) {
      if (i === 0 && j === ring.length - 1) continue;
      if (meet(a, b, ring[j]!, ring[(j + 1) % ring.length]!)) return false;
    }
  }
  return true;
}

function meet(a: Pt, b: Pt, c: Pt, d: Pt): boolean {
  const [p, q, r, s] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)];
  if (p * q < 0 && r * s < 0) return true;
  return (
    (p === 0 && within(a, b, c)) ||
    (q === 0 && within(a, b, d)) ||
    (r === 0 && within(c, d, a)) ||
    (s === 0 && within(c, d, b))
  );
}

function side(a: Pt, b: Pt, c: Pt): number {
  return Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
}

function within(a: Pt, b: Pt, p: Pt): boolean {
  return (
    p[0] >= Math.min(a[0], b[0]) &&
    p[0] <= Math.max(a[0], b[0]) &&
    p[1] >= Math.min(a[1], b[1]) &&
    p[1] <= Math.max(a[1], b[1])
  );
}

function ringAreaMm2(ring: readonly Pt[]): number {
  let twice = 0;
  ring.forEach(([x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length]!;
    twice += x * ny - nx * y;
  });
  return twice / 2;
}

export function distance(a: Pt, b: Pt): number {
  return Math.sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]));
}

function same(a: Pt, b: Pt): boolean {
  return distance(a, b) < 0.001;
}

function tidy(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}
