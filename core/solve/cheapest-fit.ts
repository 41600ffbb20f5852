import { solveSquare } from "./linear.ts";

/**
 * A term of the cost: `up` for each unit that row . p lies above z, `down` for each unit below.
 * A hard rule is a term with one side dear beyond anything else (see `HARD`).
 */
export interface Term {
  row: readonly number[];
  z: number;
  up: number;
  down: number;
}
export interface Fit {
  p: Float64Array;
  cost: number;
  /**
   * The certificate: the terms that p meets exactly, with multipliers. Slopes of all other terms times their rows, plus
   * multipliers times the rows of these, sum to nothing, and each multiplier lies between -down and up of its term:
   * then no p costs less. `proved` says that this holds.
   */
  basis: { term: number; multiplier: number }[];
  proved: boolean;
  steps: number;
}

const STEPS_MAX = 5_000;
/** Terms are shifted by at most this (in the unit of z) so that no two meet in one point by chance. */
const SHIFT = 1e-7;

/**
 * Least sum of terms over k unknowns: weighted quantile regression (Koenker & Bassett 1978), which is a linear programme.
 * Edge descent: at a point where k terms are met exactly, the multipliers name a term whose release makes the sum fall;
 * along that edge the sum is piecewise linear and its least value, a weighted median of the crossings, is the next such
 * point (Barrodale & Roberts 1973). Each step is one pass and one sort. `start` is the basis of a like problem, to begin
 * there (k indices of terms). Null where the rows do not span k dimensions.
 */
export function cheapestFit(terms: readonly Term[], k: number, start: readonly number[] | null = null): Fit | null {
  const n = terms.length;
  const rows = new Float64Array(n * k);
  const z = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    for (let c = 0; c < k; c++) rows[i * k + c] = terms[i]!.row[c]!;
    // A fixed sequence that is not straight over even steps: squares, so that points in line are moved out of it.
    z[i] = terms[i]!.z + SHIFT * ((i * i * 0.6180339887498949) % 1);
  }
  const warm = start && solveSquare(matrixOf(rows, [...start], k), new Float64Array(k), k) ? [...start] : null;
  const basis = warm ?? independentRows(terms, k);
  if (!basis) return null;
  const inBasis = new Uint8Array(n);
  for (const i of basis) inBasis[i] = 1;
  let steps = 0;
  let proved = false;
  let p = pointOf(rows, z, basis, k)!;
  let multipliers = new Float64Array(k);
  for (; steps < STEPS_MAX; steps++) {
    const residuals = residualsOf(rows, z, p, k);
    multipliers = multipliersOf(terms, rows, residuals, basis, inBasis, k);
    const leave = violated(terms, basis, multipliers);
    if (!leave) {
      proved = true;
      break;
    }
    const unit = new Float64Array(k);
    unit[leave.place] = leave.way;
    const direction = solveSquare(matrixOf(rows, basis, k), unit, k);
    const enter = direction ? lineSearch(terms, rows, residuals, inBasis, direction, leave.slope, k) : -1;
    if (enter < 0) break;
    inBasis[basis[leave.place]!] = 0;
    inBasis[enter] = 1;
    basis[leave.place] = enter;
    const next = pointOf(rows, z, basis, k);
    if (!next) break;
    p = next;
  }
  const exact =
    pointOf(
      rows,
      Float64Array.from(terms, (t) => t.z),
      basis,
      k,
    ) ?? p;
  return {
    p: exact,
    cost: costOf(terms, exact),
    basis: basis.map((term, c) => ({ term, multiplier: multipliers[c]! })),
    proved,
    steps,
  };
}

/** The sum of all terms at p. */
export function costOf(terms: readonly Term[], p: ArrayLike<number>): number {
  let cost = 0;
  for (const t of terms) {
    const r = residualOf(t, p);
    cost += r > 0 ? t.up * r : -t.down * r;
  }
  return cost;
}

export function residualOf(t: Term, p: ArrayLike<number>): number {
  let r = -t.z;
  for (let c = 0; c < t.row.length; c++) r += t.row[c]! * p[c]!;
  return r;
}

/** k rows that span the unknowns, each time the one farthest from what the others span (Gram-Schmidt). */
function independentRows(terms: readonly Term[], k: number): number[] | null {
  const left = terms.map((t) => [...t.row]);
  const chosen: number[] = [];
  for (let c = 0; c < k; c++) {
    let best = -1;
    let most = 1e-18;
    for (let i = 0; i < left.length; i++) {
      let size = 0;
      for (const v of left[i]!) size += v * v;
      if (size > most * (1 + 1e-9)) {
        most = size;
        best = i;
      }
    }
    if (best < 0) return null;
    chosen.push(best);
    const axis = left[best]!.map((v) => v / Math.sqrt(most));
    for (const row of left) {
      let along = 0;
      for (let j = 0; j < k; j++) along += row[j]! * axis[j]!;
      for (let j = 0; j < k; j++) row[j] = row[j]! - along * axis[j]!;
    }
  }
  return chosen;
}

function matrixOf(rows: Float64Array, basis: number[], k: number): Float64Array {
  const m = new Float64Array(k * k);
  for (let r = 0; r < k; r++) for (let c = 0; c < k; c++) m[r * k + c] = rows[basis[r]! * k + c]!;
  return m;
}

function pointOf(rows: Float64Array, z: Float64Array, basis: number[], k: number): Float64Array | null {
  return solveSquare(
    matrixOf(rows, basis, k),
    Float64Array.from(basis, (i) => z[i]!),
    k,
  );
}

function residualsOf(rows: Float64Array, z: Float64Array, p: Float64Array, k: number): Float64Array {
  const r = new Float64Array(z.length);
  for (let i = 0; i < z.length; i++) {
    let sum = -z[i]!;
    for (let c = 0; c < k; c++) sum += rows[i * k + c]! * p[c]!;
    r[i] = sum;
  }
  return r;
}

function multipliersOf(
  terms: readonly Term[],
  rows: Float64Array,
  residuals: Float64Array,
  basis: number[],
  inBasis: Uint8Array,
  k: number,
): Float64Array<ArrayBuffer> {
  const gradient = new Float64Array(k);
  for (let i = 0; i < terms.length; i++) {
    if (inBasis[i]) continue;
    const slope = residuals[i]! > 0 ? terms[i]!.up : -terms[i]!.down;
    if (slope !== 0) for (let c = 0; c < k; c++) gradient[c] = gradient[c]! + slope * rows[i * k + c]!;
  }
  const m = new Float64Array(k * k);
  for (let r = 0; r < k; r++) for (let c = 0; c < k; c++) m[c * k + r] = rows[basis[r]! * k + c]!;
  const solved = solveSquare(
    m,
    gradient.map((g) => -g),
    k,
  );
  return Float64Array.from(solved ?? gradient);
}

/** The basic term whose release gains most: its place, the way to move and the slope along that edge. */
function violated(terms: readonly Term[], basis: number[], y: Float64Array) {
  let found: { place: number; way: 1 | -1; slope: number } | null = null;
  for (let c = 0; c < basis.length; c++) {
    const t = terms[basis[c]!]!;
    const hair = 1e-9 * (1 + t.up + t.down + Math.abs(y[c]!) * 1e-3);
    const over = y[c]! - t.up;
    const under = -t.down - y[c]!;
    if (over > hair && (!found || -over < found.slope)) found = { place: c, way: 1, slope: -over };
    if (under > hair && (!found || -under < found.slope)) found = { place: c, way: -1, slope: -under };
  }
  return found;
}

/** The term at whose crossing the sum stops falling along the edge. */
function lineSearch(
  terms: readonly Term[],
  rows: Float64Array,
  residuals: Float64Array,
  inBasis: Uint8Array,
  direction: Float64Array,
  slope: number,
  k: number,
): number {
  const crossings: { t: number; i: number; turn: number }[] = [];
  for (let i = 0; i < terms.length; i++) {
    if (inBasis[i]) continue;
    let rate = 0;
    for (let c = 0; c < k; c++) rate += rows[i * k + c]! * direction[c]!;
    const r = residuals[i]!;
    const turn = (terms[i]!.up + terms[i]!.down) * Math.abs(rate);
    // A residual of nothing counts as below, as it does in the gradient.
    if (turn > 0 && (r > 0 ? rate < 0 : rate > 0)) crossings.push({ t: -r / rate, i, turn });
  }
  crossings.sort((p, q) => p.t - q.t || p.i - q.i);
  let sum = slope;
  for (const c of crossings) {
    sum += c.turn;
    if (sum >= 0) return c.i;
  }
  return -1;
}
