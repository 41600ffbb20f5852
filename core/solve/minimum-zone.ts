import { solveSquare } from "./linear.ts";

/** The plane whose greatest vertical distance to the points is least, and the points that prove it. */
export interface Zone {
  a: number;
  b: number;
  c: number;
  halfWidth: number;
  /**
   * Indices of the points that touch the zone, with their weights: positive above, negative below. The weights times
   * (1, x, y) sum to nothing and their sizes to one, so that weights times z is a lower bound of every half width.
   * Four points at most (two above and two below, or three and one); fewer where points lie on one line.
   */
  certificate: { index: number; weight: number }[];
  steps: number;
}

/** Smaller gains than this do not count, mm: a thousandth of what any level reads. */
const ENOUGH_MM = 1e-9;
const STEPS_MAX = 20_000;
/** An exchange that moves less than this (coordinates within -1 .. 1) would leave three points on one line as a basis. */
const LEAST_MOVE = 1e-9;

/**
 * Minimum-zone plane (Chebyshev in z) by the exchange method: the simplex method on the dual linear programme, whose
 * basis is the four points of the certificate. The point farthest out comes in, the ratio test names who leaves; after
 * steps without gain the first point in order comes in (Bland), so that it ends. Each step looks at every point once.
 * Null for fewer than three points or points on one line.
 */
export function minimumZone(points: readonly (readonly [number, number, number])[]): Zone | null {
  const n = points.length;
  const start = threeApart(points);
  if (!start) return null;
  const [i0, i1, i2] = start;
  const [ox, oy, oz] = points[i0]!;
  let reach = 0;
  for (const [x, y] of points) reach = Math.max(reach, Math.abs(x - ox), Math.abs(y - oy));
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const z = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const p = points[i]!;
    x[i] = (p[0] - ox) / reach;
    y[i] = (p[1] - oy) / reach;
    z[i] = p[2] - oz;
  }
  // A column is 2 i for point i from above (+), 2 i + 1 from below (-).
  const basis = [2 * i0, 2 * i0 + 1, 2 * i1, 2 * i2];
  let bland = false;
  let last = Number.NEGATIVE_INFINITY;
  // Points that would leave the basis with three points all but on one line: they may not come in again.
  const barred = new Set<number>();
  for (let steps = 0; ; steps++) {
    const weights = solveBasis(basis, x, y, [0, 0, 0, 1], false)!;
    const plane = solveBasis(
      basis,
      x,
      y,
      basis.map((c) => sign(c) * z[c >> 1]!),
      true,
    )!;
    const [c0, a0, b0, half] = plane as unknown as [number, number, number, number];
    bland = half <= last + ENOUGH_MM;
    last = half;
    const enter = steps < STEPS_MAX ? entering(x, y, z, c0, a0, b0, half, bland, barred) : -1;
    if (enter < 0) {
      const certificate = basis
        .map((c, k) => ({ index: c >> 1, weight: sign(c) * weights[k]! }))
        .filter((p) => Math.abs(p.weight) > 1e-12)
        .sort((p, q) => p.index - q.index);
      const a = a0 / reach;
      const b = b0 / reach;
      const halfWidth = Math.max(0, half, barred.size > 0 ? farthest(x, y, z, c0, a0, b0) : 0);
      // A zone of no width: two entries of one point cancel, and nothing needs proof.
      return { a, b, c: c0 + oz - a * ox - b * oy, halfWidth, certificate: merged(certificate), steps };
    }
    const s = sign(enter);
    const j = enter >> 1;
    const move = solveBasis(basis, x, y, [s, s * x[j]!, s * y[j]!, 1], false)!;
    const out = leaving(basis, weights, move);
    const before = basis[out]!;
    basis[out] = enter;
    if (move[out]! > LEAST_MOVE && solveBasis(basis, x, y, [0, 0, 0, 1], false)) barred.clear();
    else {
      basis[out] = before;
      barred.add(enter);
    }
  }
}

function sign(column: number): number {
  return column % 2 === 0 ? 1 : -1;
}

/** Solves with the basis matrix (columns s, s x, s y, 1), or with its transpose. */
function solveBasis(basis: number[], x: Float64Array, y: Float64Array, rhs: number[], transposed: boolean) {
  const m = new Float64Array(16);
  for (let k = 0; k < 4; k++) {
    const s = sign(basis[k]!);
    const i = basis[k]! >> 1;
    const column = [s, s * x[i]!, s * y[i]!, 1];
    for (let r = 0; r < 4; r++) m[transposed ? 4 * k + r : 4 * r + k] = column[r]!;
  }
  return solveSquare(m, Float64Array.from(rhs), 4);
}

/** The column whose point lies farthest outside the zone; the first one outside once gains have stopped. */
function entering(
  x: Float64Array,
  y: Float64Array,
  z: Float64Array,
  c: number,
  a: number,
  b: number,
  half: number,
  bland: boolean,
  barred: ReadonlySet<number>,
): number {
  let best = -1;
  let most = half + ENOUGH_MM;
  for (let i = 0; i < z.length; i++) {
    const r = z[i]! - c - a * x[i]! - b * y[i]!;
    const off = r < 0 ? -r : r;
    if (off <= most) continue;
    const column = r < 0 ? 2 * i + 1 : 2 * i;
    if (barred.has(column)) continue;
    best = column;
    if (bland) return best;
    most = off;
  }
  return best;
}

/** Greatest distance of any point from the plane. */
function farthest(x: Float64Array, y: Float64Array, z: Float64Array, c: number, a: number, b: number): number {
  let most = 0;
  for (let i = 0; i < z.length; i++) most = Math.max(most, Math.abs(z[i]! - c - a * x[i]! - b * y[i]!));
  return most;
}

function leaving(basis: number[], weights: Float64Array, move: Float64Array): number {
  let out = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < 4; k++) {
    if (!(move[k]! > LEAST_MOVE)) continue;
    const ratio = Math.max(0, weights[k]!) / move[k]!;
    if (ratio < least - 1e-15 || (ratio <= least + 1e-15 && basis[k]! < basis[out]!)) {
      least = Math.min(least, ratio);
      out = k;
    }
  }
  return out;
}

function merged(certificate: { index: number; weight: number }[]): { index: number; weight: number }[] {
  return certificate.filter((p, k) => p.index !== certificate[k - 1]?.index && p.index !== certificate[k + 1]?.index);
}

/** Three points that span a plane: the first, the farthest from it, and the farthest from their line. */
function threeApart(points: readonly (readonly [number, number, number])[]): [number, number, number] | null {
  const first = points[0];
  if (!first) return null;
  const [ox, oy] = first;
  let far = -1;
  let most = 0;
  for (const [i, [px, py]] of points.entries()) {
    const d = (px - ox) * (px - ox) + (py - oy) * (py - oy);
    if (d > most) {
      most = d;
      far = i;
    }
  }
  if (far < 0) return null;
  const dx = points[far]![0] - ox;
  const dy = points[far]![1] - oy;
  let off = -1;
  let widest = 1e-9 * most;
  for (const [i, [px, py]] of points.entries()) {
    const w = Math.abs((px - ox) * dy - (py - oy) * dx);
    if (w > widest) {
      widest = w;
      off = i;
    }
  }
  return off < 0 ? null : [0, far, off];
}
