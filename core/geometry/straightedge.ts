import type { BaseMesh } from "./base-mesh.ts";
import { nextEdge } from "./delaunay.ts";
import { directionOf } from "./direction.ts";
import { largestGap } from "./profile.ts";

type Xy = [x: number, y: number];
/** A bar on the base: its two supports, and where the gap is largest. */
export interface BarRest {
  gapMm: number;
  from: Xy;
  to: Xy;
  at: Xy;
}
export interface StraightedgeSearch {
  /** The largest gap of all, or null where the base has none. */
  worst: BarRest | null;
  /** For each point of the mesh with a gap over the limit, the largest one on lines through it. */
  over: BarRest[];
}

/**
 * Directions looked in, degrees apart. A bar turned by half a step from the worst direction is 0.2 % longer across the
 * same trough, so a straight trough or ridge loses at most that before the refinement below; a pit or bump loses
 * nothing at its own point, because a line goes through every point in every direction. What can be missed is a bar
 * whose line meets no point of the mesh: its gap differs from a neighbouring line's by what the triangles between change.
 */
export const ANGLE_STEP_DEG = 7.5;
/** The best bars are turned on by halving steps this often. */
const REFINEMENTS = 7;
const REFINED_BARS = 6;
/** Smaller gaps are the last digits of a sum, mm. */
const NO_GAP_MM = 1e-6;
const SAME_PLACE_MM = 1e-6;

/**
 * Largest gap under a straightedge of `lengthMm` over the measured part of the base, in all positions and directions:
 * a line through every point of the mesh in every direction, crossing triangle edges exactly, each searched in full.
 * Lines whose heights vary by less than the best gap are passed over. Cost: points x directions x triangles within a bar.
 */
export function searchStraightedge(mesh: BaseMesh, lengthMm: number, limitMm: number): StraightedgeSearch {
  const walker = new Walker(mesh, lengthMm);
  const most = new Map<number, Found>();
  let best = NO_GAP_MM;
  for (let deg = 0; deg < 180; deg += ANGLE_STEP_DEG) {
    walker.turn(deg);
    for (let v = 0; v < mesh.x.length; v++) {
      const known = most.get(v);
      const floor = best <= limitMm ? best : Math.max(limitMm, known ? known.rest.gapMm : 0);
      const rest = walker.through(v, floor);
      if (!rest) continue;
      most.set(v, { v, deg, rest });
      if (rest.gapMm > best) best = rest.gapMm;
    }
  }
  const found = [...most.values()].sort((p, q) => q.rest.gapMm - p.rest.gapMm || p.v - q.v);
  for (const f of found.slice(0, REFINED_BARS)) refine(walker, f);
  let worst: BarRest | null = null;
  for (const f of found) if (!worst || f.rest.gapMm > worst.gapMm) worst = f.rest;
  return { worst, over: found.filter((f) => f.rest.gapMm > limitMm).map((f) => f.rest) };
}

interface Found {
  v: number;
  deg: number;
  rest: BarRest;
}

function refine(walker: Walker, f: Found): void {
  let step = ANGLE_STEP_DEG / 2;
  for (let k = 0; k < REFINEMENTS; k++, step /= 2) {
    const middle = f.deg;
    for (const deg of [middle - step, middle + step]) {
      walker.turn(deg);
      const rest = walker.through(f.v, f.rest.gapMm);
      if (rest) {
        f.rest = rest;
        f.deg = deg;
      }
    }
  }
}

/** Cuts profiles out of the mesh along lines of one direction. */
class Walker {
  private readonly mesh: BaseMesh;
  private readonly length: number;
  private readonly around: { first: Int32Array; edges: Int32Array };
  private readonly along: Float64Array;
  private readonly across: Float64Array;
  private dx = 1;
  private dy = 0;
  /** Points level with the line count as above it. */
  private tie = false;
  private s = new Float64Array(1024);
  private z = new Float64Array(1024);

  constructor(mesh: BaseMesh, length: number) {
    this.mesh = mesh;
    this.length = length;
    this.around = edgesFrom(mesh);
    this.along = new Float64Array(mesh.x.length);
    this.across = new Float64Array(mesh.x.length);
  }

  turn(deg: number): void {
    [this.dx, this.dy] = directionOf(deg);
    const { x, y } = this.mesh;
    for (let i = 0; i < x.length; i++) {
      this.along[i] = x[i]! * this.dx + y[i]! * this.dy;
      this.across[i] = y[i]! * this.dx - x[i]! * this.dy;
    }
  }

  /** The largest gap above `floor` on the line through point v, or null. */
  through(v: number, floor: number): BarRest | null {
    const start = this.startEdge(v);
    if (start < 0) return null;
    const n = this.profile(v, start);
    if (n < 3 || this.range(n) <= floor) return null;
    const rest = largestGap(this.s, this.z, n, this.length, floor);
    if (!rest) return null;
    const place = (s: number): Xy => [this.mesh.x[v]! + s * this.dx, this.mesh.y[v]! + s * this.dy];
    return { gapMm: rest.gap, from: place(rest.from), to: place(rest.to), at: place(rest.at) };
  }

  /**
   * The line is thought of as lying a hair above v and every other point level with it, so that it never meets a
   * corner: it leaves v over an edge whose other end is above. Along an upper rim it lies a hair below instead.
   */
  private startEdge(v: number): number {
    const { corners, measured, twins } = this.mesh;
    for (const tie of [false, true]) {
      this.tie = tie;
      const own = this.above(v, v);
      for (let k = this.around.first[v]!; k < this.around.first[v + 1]!; k++) {
        const e = this.around.edges[k]!;
        const other = corners[e] === v ? corners[nextEdge(e)]! : corners[e]!;
        if (this.above(other, v) === own) continue;
        if (measured[(e / 3) | 0]) return e;
        if (twins[e]! >= 0 && measured[(twins[e]! / 3) | 0]) return twins[e]!;
      }
    }
    return -1;
  }

  private above(i: number, v: number): boolean {
    const d = this.across[i]! - this.across[v]!;
    return d > 0 || (d === 0 && this.tie);
  }

  /** Fills s and z with the profile, ascending; its length. */
  private profile(v: number, start: number): number {
    const n = this.walk(v, start, 0);
    const twin = this.mesh.twins[start]!;
    // The first walk is turned round, so that it leads up to the start; the second runs on from there.
    reverse(this.s, n);
    reverse(this.z, n);
    const total = twin >= 0 && this.mesh.measured[(twin / 3) | 0] ? this.walk(v, twin, n - 1) : n;
    if (total > 1 && this.s[0]! > this.s[total - 1]!) {
      reverse(this.s, total);
      reverse(this.z, total);
    }
    return this.thinned(total);
  }

  /** A corner is met once for every edge at it: places closer than a millionth of a millimetre become one. */
  private thinned(n: number): number {
    let kept = Math.min(1, n);
    for (let i = 1; i < n; i++) {
      if (this.s[i]! - this.s[kept - 1]! <= SAME_PLACE_MM) continue;
      this.s[kept] = this.s[i]!;
      this.z[kept] = this.z[i]!;
      kept++;
    }
    return kept;
  }

  /** Writes the crossings from edge e on, through its own triangle and the next, until the rim or one bar's length. */
  private walk(v: number, e: number, at: number): number {
    const { corners, twins, measured, z } = this.mesh;
    const s0 = this.along[v]!;
    const t0 = this.across[v]!;
    let edge = e;
    let n = at;
    for (let steps = 0; steps <= corners.length; steps++) {
      const p = corners[edge]!;
      const q = corners[nextEdge(edge)]!;
      const dp = this.across[p]! - t0;
      const dq = this.across[q]! - t0;
      const f = dp === dq ? 0 : dp / (dp - dq);
      const s = this.along[p]! + f * (this.along[q]! - this.along[p]!) - s0;
      if (n + 1 >= this.s.length) this.grow();
      this.s[n] = s;
      this.z[n] = z[p]! + f * (z[q]! - z[p]!);
      n++;
      if (s > this.length || s < -this.length || !measured[(edge / 3) | 0]) break;
      const base = edge - (edge % 3);
      const apex = corners[base + ((edge + 2) % 3)]!;
      const into = this.above(apex, v) === this.above(p, v) ? nextEdge(edge) : base + ((edge + 2) % 3);
      const twin = twins[into]!;
      if (twin < 0 || !measured[(twin / 3) | 0]) {
        const a = corners[into]!;
        const b = corners[nextEdge(into)]!;
        const da = this.across[a]! - t0;
        const db = this.across[b]! - t0;
        const g = da === db ? 0 : da / (da - db);
        this.s[n] = this.along[a]! + g * (this.along[b]! - this.along[a]!) - s0;
        this.z[n] = z[a]! + g * (z[b]! - z[a]!);
        return n + 1;
      }
      edge = twin;
    }
    return n;
  }

  /** Greatest less least height above the chord from the profile's first point to its last: no gap is larger. */
  private range(n: number): number {
    const run = this.s[n - 1]! - this.s[0]!;
    const slope = run > 0 ? (this.z[n - 1]! - this.z[0]!) / run : 0;
    let low = 0;
    let high = 0;
    for (let i = 1; i < n; i++) {
      const d = this.z[i]! - this.z[0]! - slope * (this.s[i]! - this.s[0]!);
      if (d < low) low = d;
      if (d > high) high = d;
    }
    return high - low;
  }

  private grow(): void {
    const s = new Float64Array(this.s.length * 2);
    const z = new Float64Array(this.z.length * 2);
    s.set(this.s);
    z.set(this.z);
    this.s = s;
    this.z = z;
  }
}

function reverse(a: Float64Array, n: number): void {
  for (let i = 0, j = n - 1; i < j; i++, j--) {
    const kept = a[i]!;
    a[i] = a[j]!;
    a[j] = kept;
  }
}

/** Half-edges that touch each point (leaving it or arriving), in one list. */
export function edgesFrom(mesh: { x: Float64Array; corners: Int32Array }): { first: Int32Array; edges: Int32Array } {
  const first = new Int32Array(mesh.x.length + 1);
  for (let e = 0; e < mesh.corners.length; e++) {
    first[mesh.corners[e]! + 1]!++;
    first[mesh.corners[nextEdge(e)]! + 1]!++;
  }
  for (let i = 0; i < mesh.x.length; i++) first[i + 1]! += first[i]!;
  const edges = new Int32Array(mesh.corners.length * 2);
  const at = first.slice();
  for (let e = 0; e < mesh.corners.length; e++) {
    edges[at[mesh.corners[e]!]!++] = e;
    edges[at[mesh.corners[nextEdge(e)]!]!++] = e;
  }
  return { first, edges };
}
