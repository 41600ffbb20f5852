/** One column of a covering programme: its cost and how much of each demand it covers. */
export interface Column {
  cost: number;
  counts: readonly number[];
  /** Whatever the caller wants to find again. */
  tag: number;
}
export interface CoverAnswer {
  /** Columns in the last basis and how often each is used, fractions allowed. */
  used: { column: Column; times: number }[];
  value: number;
  /** Price of each demand; feasible for every column only when `finished`. */
  duals: number[];
  finished: boolean;
}

const EPS = 1e-9;
const FRESH = 50;

/**
 * min sum(cost * x) over columns with sum(counts * x) >= demand, x >= 0, where `price` finds a column whose cost is
 * less than its worth at given duals, or null (Gilmore & Gomory 1961). Revised simplex with a dense inverse, doubles,
 * smallest index on ties; O(m^2) a step for m demands. `start[i]` must cover demand i alone.
 * Stops after `maxSteps` columns, with the last duals: make them valid by Farley's scaling.
 */
export function coverByColumns(
  demand: readonly number[],
  start: readonly Column[],
  price: (duals: readonly number[]) => Column | null,
  maxSteps: number,
): CoverAnswer {
  const m = demand.length;
  const basis: (Column | null)[] = start.slice();
  const inverse = new Float64Array(m * m);
  const x = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    inverse[i * m + i] = 1 / start[i]!.counts[i]!;
    x[i] = demand[i]! / start[i]!.counts[i]!;
  }
  const duals = new Array<number>(m).fill(0);
  const direction = new Float64Array(m);
  let finished = false;
  for (let step = 0; step < maxSteps; step++) {
    // Updated below in O(m); from the basis again now and then, before rounding adds up.
    if (step % FRESH === 0) dualsOf(basis, inverse, m, duals);
    let entering: Column | null = null;
    let surplus = -1;
    let worst = -EPS;
    for (let i = 0; i < m; i++)
      if (duals[i]! < worst) {
        worst = duals[i]!;
        surplus = i;
      }
    if (surplus < 0) {
      entering = price(duals);
      if (entering === null) {
        finished = true;
        break;
      }
    }
    const gain = directionOf(entering, surplus, inverse, m, duals, direction);
    let leave = -1;
    let ratio = Number.POSITIVE_INFINITY;
    for (let r = 0; r < m; r++) {
      if (direction[r]! <= EPS) continue;
      const t = x[r]! / direction[r]!;
      if (t < ratio - EPS) {
        ratio = t;
        leave = r;
      }
    }
    if (leave < 0) break;
    pivot(inverse, x, direction, leave, m);
    for (let j = 0; j < m; j++) duals[j]! += gain * inverse[leave * m + j]!;
    basis[leave] = entering;
  }
  dualsOf(basis, inverse, m, duals);
  const used: { column: Column; times: number }[] = [];
  let value = 0;
  for (let r = 0; r < m; r++) {
    const column = basis[r];
    if (column === null || column === undefined || x[r]! <= EPS) continue;
    used.push({ column, times: x[r]! });
    value += column.cost * x[r]!;
  }
  return { used, value, duals: duals.map((y) => Math.max(y, 0)), finished };
}

/** The basis's answer to an entering column, into `out`; returns the column's reduced cost. */
function directionOf(
  entering: Column | null,
  surplus: number,
  inverse: Float64Array,
  m: number,
  duals: readonly number[],
  out: Float64Array,
): number {
  if (entering === null) {
    for (let r = 0; r < m; r++) out[r] = -inverse[r * m + surplus]!;
    return duals[surplus]!;
  }
  const at: number[] = [];
  let gain = entering.cost;
  for (let j = 0; j < m; j++)
    if (entering.counts[j] !== 0) {
      at.push(j);
      gain -= entering.counts[j]! * duals[j]!;
    }
  for (let r = 0; r < m; r++) {
    let sum = 0;
    for (const j of at) sum += inverse[r * m + j]! * entering.counts[j]!;
    out[r] = sum;
  }
  return gain;
}

function dualsOf(basis: readonly (Column | null)[], inverse: Float64Array, m: number, out: number[]): void {
  out.fill(0);
  for (let r = 0; r < m; r++) {
    const cost = basis[r]?.cost ?? 0;
    if (cost === 0) continue;
    for (let j = 0; j < m; j++) out[j]! += cost * inverse[r * m + j]!;
  }
}

function pivot(inverse: Float64Array, x: Float64Array, direction: Float64Array, leave: number, m: number): void {
  const by = 1 / direction[leave]!;
  for (let j = 0; j < m; j++) inverse[leave * m + j]! *= by;
  x[leave]! *= by;
  for (let r = 0; r < m; r++) {
    const d = direction[r]!;
    if (r === leave || d === 0) continue;
    for (let j = 0; j < m; j++) {
      const v = inverse[leave * m + j]!;
      if (v !== 0) inverse[r * m + j]! -= d * v;
    }
    x[r]! -= d * x[leave]!;
    if (x[r]! < 0 && x[r]! > -1e-7) x[r] = 0;
  }
}
