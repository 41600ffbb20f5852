import { cholesky, invertFactored, solveFactored } from "./cholesky.ts";

type Xy = readonly [x: number, y: number];
export interface DistanceNetwork {
  /** Points that do not move. */
  fixed: Record<string, Xy>;
  /** First guesses of all others. */
  approx: Record<string, Xy>;
  obs: readonly (readonly [from: string, to: string, measured: number])[];
  /** Standard deviation before the adjustment, one for all or one each, in the unit of the distances. */
  sd: number | readonly number[];
  /** Single coordinates of `approx` that do not move: a free network needs three. */
  held?: readonly { name: string; axis: "x" | "y" }[];
}
export interface AdjustedObservation {
  from: string;
  to: string;
  measured: number;
  adjusted: number;
  /** adjusted - measured. */
  residual: number;
  /** Of the adjusted distance, after the adjustment (before it, where nothing is redundant). */
  sigma: number;
  /** Share of a slip in this reading that shows in its own residual: 0 nothing checks it, 1 all of it. */
  redundancy: number;
  /** Baarda's test value, residual over its own standard deviation; null where nothing checks the reading. */
  w: number | null;
}
export interface DistanceAdjustment {
  ok: true;
  points: Record<string, { x: number; y: number; sigmaX: number; sigmaY: number }>;
  obs: AdjustedObservation[];
  dof: number;
  /** Standard deviation of unit weight after the adjustment, in units of `sd`; null without redundancy. */
  s0: number | null;
  /** Weighted sum of squared residuals. */
  vtpv: number;
  iterations: number;
}
export type DistanceResult = DistanceAdjustment | { ok: false; loose: string };

const ITERATIONS_MAX = 60;
/** Below this redundancy a reading counts as unchecked: its test value would be noise over noise. */
const CHECKED = 1e-6;

/**
 * Least-squares adjustment of a network of distances by Gauss-Newton with halved steps (Ghilani, Adjustment Computations,
 * ch. 14; redundancy and test values after Baarda 1968). Dense normal equations: O(n^3) in the number of unknowns.
 */
export function adjustDistances(network: DistanceNetwork): DistanceResult {
  const state = setUp(network);
  let iterations = 0;
  let cost = misfit(state);
  for (; iterations < ITERATIONS_MAX; iterations++) {
    const normal = cholesky(normalMatrix(state), state.n);
    if ("at" in normal) return { ok: false, loose: state.unknowns[normal.at]!.name };
    const step = solveFactored(normal.factor, state.n, rightSide(state));
    const before = Float64Array.from(state.xy);
    let share = 1;
    let next = 0;
    for (let halving = 0; halving < 30; halving++, share /= 2) {
      state.unknowns.forEach((unknown, k) => {
        state.xy[unknown.slot] = before[unknown.slot]! + share * step[k]!;
      });
      next = misfit(state);
      if (next <= cost * (1 + 1e-12) + 1e-18) break;
    }
    let moved = 0;
    for (let k = 0; k < state.n; k++) moved = Math.max(moved, Math.abs(share * step[k]!));
    cost = next;
    if (moved < 1e-9 * state.reach) break;
  }
  return finish(state, network, iterations + 1);
}

interface State {
  names: string[];
  index: Map<string, number>;
  /** x and y of point i at 2i and 2i + 1, about `origin`: far-off coordinates lose nothing. */
  xy: Float64Array;
  origin: [number, number];
  unknowns: { name: string; slot: number }[];
  /** Column of each slot, -1 where it does not move. */
  column: Int32Array;
  n: number;
  obs: { from: number; to: number; measured: number; weight: number }[];
  reach: number;
}

function setUp({ fixed, approx, obs, sd, held = [] }: DistanceNetwork): State {
  const names = [...Object.keys(fixed), ...Object.keys(approx)];
  const index = new Map(names.map((name, i) => [name, i]));
  const at = (name: string): Xy => (Object.hasOwn(fixed, name) ? fixed[name]! : approx[name]!);
  const origin: [number, number] = [...at(names[0]!)];
  const xy = new Float64Array(names.length * 2);
  names.forEach((name, i) => {
    xy[2 * i] = at(name)[0] - origin[0];
    xy[2 * i + 1] = at(name)[1] - origin[1];
  });
  const column = new Int32Array(names.length * 2).fill(-1);
  const still = new Set(held.map(({ name, axis }) => 2 * index.get(name)! + (axis === "x" ? 0 : 1)));
  const unknowns: State["unknowns"] = [];
  for (const name of Object.keys(approx)) {
    for (const slot of [2 * index.get(name)!, 2 * index.get(name)! + 1]) {
      if (still.has(slot)) continue;
      column[slot] = unknowns.length;
      unknowns.push({ name, slot });
    }
  }
  const rows = obs.map(([from, to, measured], k) => {
    const sigma = typeof sd === "number" ? sd : sd[k]!;
    return { from: index.get(from)!, to: index.get(to)!, measured, weight: 1 / (sigma * sigma) };
  });
  const reach = rows.reduce((most, row) => Math.max(most, row.measured), 1e-300);
  return { names, index, xy, origin, unknowns, column, n: unknowns.length, obs: rows, reach };
}

/** Length of a tie now, and its unit vector. Points on one another get some direction, so that they can move apart. */
function tie(state: State, from: number, to: number): [length: number, ex: number, ey: number] {
  const dx = state.xy[2 * to]! - state.xy[2 * from]!;
  const dy = state.xy[2 * to + 1]! - state.xy[2 * from + 1]!;
  const length = Math.sqrt(dx * dx + dy * dy);
  return length > 0 ? [length, dx / length, dy / length] : [0, 1, 0];
}

function misfit(state: State): number {
  let sum = 0;
  for (const { from, to, measured, weight } of state.obs) {
    const v = tie(state, from, to)[0] - measured;
    sum += weight * v * v;
  }
  return sum;
}

/** The row of the design matrix: columns and entries that are not zero. */
function row(state: State, from: number, to: number): [column: number, entry: number][] {
  const [, ex, ey] = tie(state, from, to);
  const entries: [number, number][] = [
    [state.column[2 * from]!, -ex],
    [state.column[2 * from + 1]!, -ey],
    [state.column[2 * to]!, ex],
    [state.column[2 * to + 1]!, ey],
  ];
  return entries.filter(([column]) => column >= 0);
}

function normalMatrix(state: State): Float64Array {
  const m = new Float64Array(state.n * state.n);
  for (const { from, to, weight } of state.obs) {
    const entries = row(state, from, to);
    for (const [i, a] of entries)
      for (const [j, b] of entries) m[i * state.n + j] = m[i * state.n + j]! + weight * a * b;
  }
  return m;
}

function rightSide(state: State): Float64Array {
  const b = new Float64Array(state.n);
  for (const { from, to, measured, weight } of state.obs) {
    const short = measured - tie(state, from, to)[0];
    for (const [i, a] of row(state, from, to)) b[i] = b[i]! + weight * a * short;
  }
  return b;
}

function finish(state: State, network: DistanceNetwork, iterations: number): DistanceResult {
  const normal = cholesky(normalMatrix(state), state.n);
  if ("at" in normal) return { ok: false, loose: state.unknowns[normal.at]!.name };
  const q = invertFactored(normal.factor, state.n);
  const vtpv = misfit(state);
  const dof = state.obs.length - state.n;
  const s0 = dof > 0 ? Math.sqrt(vtpv / dof) : null;
  const unit = s0 ?? 1;
  const obs = state.obs.map(({ from, to, measured, weight }, k): AdjustedObservation => {
    const entries = row(state, from, to);
    let spread = 0;
    for (const [i, a] of entries) for (const [j, b] of entries) spread += a * b * q[i * state.n + j]!;
    const adjusted = tie(state, from, to)[0];
    const redundancy = Math.max(0, 1 - spread * weight);
    const residual = adjusted - measured;
    const w = redundancy > CHECKED ? (residual * Math.sqrt(weight)) / Math.sqrt(redundancy) : null;
    const [a, b] = [network.obs[k]![0], network.obs[k]![1]];
    return {
      from: a,
      to: b,
      measured,
      adjusted,
      residual,
      sigma: unit * Math.sqrt(Math.max(0, spread)),
      redundancy,
      w,
    };
  });
  const sigma = (slot: number): number => {
    const k = state.column[slot]!;
    return k < 0 ? 0 : unit * Math.sqrt(q[k * state.n + k]!);
  };
  // marks may be called anything
  const points: DistanceAdjustment["points"] = Object.create(null);
  state.names.forEach((name, i) => {
    const [x, y] = [state.xy[2 * i]! + state.origin[0], state.xy[2 * i + 1]! + state.origin[1]];
    points[name] = { x, y, sigmaX: sigma(2 * i), sigmaY: sigma(2 * i + 1) };
  });
  return { ok: true, points, obs, dof, s0, vtpv, iterations };
}
