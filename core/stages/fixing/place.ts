import type { CoverProblem } from "../../solve/interval-cover.ts";
import type { Interval } from "../../solve/intervals.ts";
import type { SeamCell } from "./cells.ts";
import type { Demands } from "./demands.ts";
import type { ClipRules } from "./rules.ts";

export interface Placed {
  uUm: number;
  /** How far it may move with the others standing and hold the same pieces, whole millimetres, um. */
  playUm: [number, number];
  /** Places in their tracks of the runs it holds: of the row above by the lower edge, of the row below by the upper. */
  above: number[];
  below: number[];
}
/** Sweeps to and fro, at most: a move may free its neighbours. */
const ROUNDS = 6;
const CM = 10_000;
const MM = 1000;

/**
 * Moves the clips of a cover to where a fitter wants them: joint clips to the joint's middle, others to the middle of
 * their freedom, on whole centimetres from the datum where that keeps the slack, else whole millimetres.
 */
export function settle(
  demands: Demands,
  problem: CoverProblem & { cells: SeamCell[] },
  points: readonly { at: number; cell: number }[],
  rules: ClipRules,
  slack: number,
): Placed[] {
  const at = points.map((p) => p.at);
  const cells = points.map((p) => problem.cells[p.cell]!);
  const windows = demands.windows.map((w) => ({ lo: w.lo, hi: w.hi })).sort((p, q) => p.lo - q.lo);
  const longest = windows.reduce((max, w) => Math.max(max, w.hi - w.lo), 0);
  const line = { demands, at, cells, windows, longest, rules };
  let moved = true;
  for (let round = 0; round < ROUNDS && moved; round++) {
    moved = false;
    for (let k = 0; k < at.length; k++) {
      const i = round % 2 === 0 ? k : at.length - 1 - k;
      const room = freedom(line, i, slack);
      if (room.lo > room.hi) continue;
      const [a, b] = cells[i]!.holds;
      const middle = a.k === 2 || b.k === 2 ? (cells[i]!.zone.lo + cells[i]!.zone.hi) / 2 : (room.lo + room.hi) / 2;
      const to = nearest(middle, room, demands.seam.datumUm);
      if (to === at[i]) continue;
      at[i] = to;
      moved = true;
    }
  }
  return at.map((u, i) => {
    const room = freedom(line, i, 0);
    const [a, b] = cells[i]!.holds;
    return {
      uUm: u,
      playUm: [-Math.floor(Math.max(0, u - room.lo) / MM) * MM + 0, Math.floor(Math.max(0, room.hi - u) / MM) * MM],
      above: demands.tracks[0].slice(a.n, a.n + a.k).map((r) => r.index),
      below: demands.tracks[1].slice(b.n, b.n + b.k).map((r) => r.index),
    };
  });
}

interface Line {
  demands: Demands;
  at: number[];
  cells: SeamCell[];
  windows: Interval[];
  longest: number;
  rules: ClipRules;
}

/** Where clip i may stand with all others as they are, holding the same pieces, with slack in hand. */
function freedom(line: Line, i: number, slack: number): Interval {
  const { at, cells, rules, demands } = line;
  const cell = cells[i]!;
  const u = at[i]!;
  let lo = cell.zone.lo + slack;
  let hi = cell.zone.hi - slack;
  const alone = cell.holds[0].k === 0 || cell.holds[1].k === 0;
  if (i > 0) lo = Math.max(lo, at[i - 1]! + rules.length + slack);
  if (i + 1 < at.length) hi = Math.min(hi, at[i + 1]! - rules.length - slack);
  for (const track of [0, 1] as const) {
    const hold = cell.holds[track];
    const before = i > 0 ? cells[i - 1]!.holds[track] : null;
    const after = i + 1 < at.length ? cells[i + 1]!.holds[track] : null;
    for (let r = hold.n; r < hold.n + hold.k; r++) {
      const run = demands.tracks[track][r]!;
      if (run.need === 0) continue;
      if (before && r >= before.n && r < before.n + before.k) hi = Math.min(hi, at[i - 1]! + rules.most - slack);
      else hi = Math.min(hi, (alone ? run.openAlone : run.openSeam) - slack);
      if (after && r >= after.n && r < after.n + after.k) lo = Math.max(lo, at[i + 1]! - rules.most + slack);
      else lo = Math.max(lo, (alone ? run.closeAlone : run.closeSeam) + slack);
    }
  }
  for (let w = firstWindow(line, u); w < line.windows.length && line.windows[w]!.lo <= u; w++) {
    const window = line.windows[w]!;
    if (window.hi < u || (i > 0 && at[i - 1]! >= window.lo) || (i + 1 < at.length && at[i + 1]! <= window.hi)) continue;
    lo = Math.max(lo, window.lo + slack);
    hi = Math.min(hi, window.hi - slack);
  }
  return { lo, hi };
}

function firstWindow(line: Line, u: number): number {
  let lo = 0;
  let hi = line.windows.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (line.windows[mid]!.lo >= u - line.longest) hi = mid;
    else lo = mid + 1;
  }
  return lo;
}

/** The allowed place nearest to `middle`: a whole centimetre from the datum, else a whole millimetre, else any. */
function nearest(middle: number, room: Interval, datum: number): number {
  for (const grid of [CM, MM]) {
    let k = Math.round((middle - datum) / grid);
    if (datum + k * grid < room.lo) k = Math.ceil((room.lo - datum) / grid);
    if (datum + k * grid > room.hi) k = Math.floor((room.hi - datum) / grid);
    const at = datum + k * grid;
    if (at >= room.lo && at <= room.hi) return at;
  }
  return Math.min(Math.max(Math.round(middle), room.lo), room.hi);
}
