/** What a cover must keep, said for two neighbouring points: the ground both ways of solving stand on. */
import type { Interval } from "./intervals.ts";

/** What a cell is to one track: it holds runs n .. n + k - 1; all runs before n end before it. */
export interface Hold {
  n: number;
  k: 0 | 1 | 2;
  /** May a point here be the first / the last of run n, and of run n + 1? */
  open0: boolean;
  close0: boolean;
  open1: boolean;
  close1: boolean;
}
/** Positions lo .. hi (whole numbers) of one meaning; sorted, disjoint. */
export interface Cell extends Interval {
  holds: readonly [Hold, Hold];
}
export interface CoverProblem {
  cells: readonly Cell[];
  /** Points needed in each run of each track; 0: the run is not looked after. */
  needs: readonly [readonly number[], readonly number[]];
  /** Cells must be cut at both ends of every window. */
  windows: readonly Interval[];
  least: number;
  most: number;
}
export interface Pass {
  count: number;
  /** The two points share a run that limits their distance. */
  tied: boolean;
  run: number;
  stop: "skip" | "count" | "close" | "open" | null;
  /** No later cell can do better. */
  final: boolean;
}

/** What one track says to two neighbouring points; null is before the first or after the last. */
export function pass(
  problem: CoverProblem,
  demanded: readonly [number[], number[]],
  track: 0 | 1,
  fromCell: Cell | null,
  count: number,
  toCell: Cell | null,
): Pass {
  const needs = problem.needs[track];
  const from = fromCell ? fromCell.holds[track] : null;
  const to = toCell ? toCell.holds[track] : null;
  const after = from ? from.n + from.k : 0;
  const held = from !== null && from.k > 0;
  const tied = held && to !== null && to.k > 0 && to.n === after - 1;
  if (held && !tied) {
    const run = after - 1;
    if (needs[run]! > 0) {
      if (count < needs[run]!) return { count: 0, tied: false, run, stop: "count", final: true };
      if (!(from.k === 2 ? from.close1 : from.close0))
        return { count: 0, tied: false, run, stop: "close", final: true };
    }
  }
  const upTo = to ? to.n : needs.length;
  if (upTo > after && demanded[track][upTo]! > demanded[track][after]!) {
    let run = after;
    while (needs[run] === 0) run++;
    return { count: 0, tied: false, run, stop: "skip", final: true };
  }
  if (!to || to.k === 0) return { count: 0, tied: false, run: -1, stop: null, final: false };
  const run = to.n;
  const need = needs[run]!;
  if (!tied && need > 0 && !to.open0) return { count: 0, tied: false, run, stop: "open", final: false };
  const now = tied ? Math.min(count + 1, Math.max(need, 1)) : 1;
  if (to.k === 1) return { count: now, tied: tied && need > 0, run, stop: null, final: false };
  if (need > 0 && now < need) return { count: 0, tied: false, run, stop: "count", final: false };
  if (need > 0 && !to.close0) return { count: 0, tied: false, run, stop: "close", final: false };
  if (needs[run + 1]! > 0 && !to.open1) return { count: 0, tied: false, run: run + 1, stop: "open", final: false };
  return { count: 1, tied: tied && need > 0, run, stop: null, final: false };
}

/** Before each run: how many runs of the track need a point. */
export function prefixOfDemands(needs: readonly number[]): number[] {
  const out = [0];
  for (const need of needs) out.push(out[out.length - 1]! + (need > 0 ? 1 : 0));
  return out;
}

/** By cell (and, last, before all cells): the window that starts later and ends first, or -1. */
export function dueWindows(cells: readonly Cell[], windows: readonly Interval[]): number[] {
  const order = windows.map((_, i) => i).sort((i, j) => windows[i]!.lo - windows[j]!.lo);
  const out = new Array<number>(cells.length + 1).fill(-1);
  let best = -1;
  let next = order.length - 1;
  for (let c = cells.length - 1; c >= -1; c--) {
    const after = c >= 0 ? cells[c]!.hi : Number.NEGATIVE_INFINITY;
    while (next >= 0 && windows[order[next]!]!.lo > after) {
      const w = order[next--]!;
      if (best < 0 || windows[w]!.hi <= windows[best]!.hi) best = w;
    }
    out[c >= 0 ? c : cells.length] = best;
  }
  return out;
}
