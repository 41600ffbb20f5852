/**
 * Fewest points on a line that serve two tracks of runs and a list of windows.
 *
 * Each track is an ordered list of runs. Within a run of need n > 0: at least n points, the first where it may open,
 * the last where it may close, neighbours at most `most` apart. Each window holds a point. Any two points are at least
 * `least` apart. Where a point stands it belongs to 0, 1 or 2 neighbouring runs of each track (2: at a joint).
 *
 * Method: breadth-first search over sets of positions. Every rule binds only neighbouring points, once the number of
 * points so far in the open run of each track is carried along. So layer j is the set of places where the j-th point
 * may stand with everything to its left served: a union of intervals inside cells of equal meaning. A place seen in an
 * earlier layer, with no smaller counts, is taken out. The first layer that can end is the least number: exact over
 * all whole-number positions, with no candidate points. Each cell is entered once a count state, so the
 * cost is about linear in the length of the line.
 */
import { greedyPoints } from "./interval-greedy.ts";
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
/** Why there is no cover: the demand that stopped the search furthest along the line. */
export interface Blocked {
  reason: "skip" | "count" | "close" | "open" | "space" | "window";
  track: 0 | 1;
  /** Run, or index of the window. */
  index: number;
  at: number;
}
export type CoverResult =
  | { points: { at: number; cell: number }[]; blocked: null }
  | { points: null; blocked: Blocked };

interface Entry extends Interval {
  cell: number;
  counts: readonly [number, number];
}

/**
 * Solves the problem; `prefer(lo, hi)` picks a place in an interval that may be chosen freely (a whole centimetre,
 * the middle). The number of points never depends on it.
 */
export function coverLine(problem: CoverProblem, prefer: (lo: number, hi: number) => number): CoverResult {
  const quick = greedyPoints(problem);
  if (quick && keepsAll(problem, quick)) return { points: quick, blocked: null };
  return coverByLayers(problem, prefer);
}

/** The exact search alone. */
export function coverByLayers(problem: CoverProblem, prefer: (lo: number, hi: number) => number): CoverResult {
  const { cells, windows, least, most } = problem;
  const demanded = problem.needs.map(prefixOfDemands) as [number[], number[]];
  const due = dueWindows(cells, windows);
  const seen: Entry[][] = cells.map(() => []);
  const layers: Entry[][] = [];
  let blocked: Blocked = { reason: "skip", track: 0, index: 0, at: Number.NEGATIVE_INFINITY };
  const note = (reason: Blocked["reason"], track: 0 | 1, index: number, at: number): void => {
    if (at > blocked.at) blocked = { reason, track, index, at };
  };

  /** What still bars an end after `from`; null where nothing does. */
  function endBar(from: Entry | null): { reason: Blocked["reason"]; track: 0 | 1; index: number } | null {
    const dueHere = due[from ? from.cell : cells.length]!;
    if (dueHere >= 0) return { reason: "window", track: 0, index: dueHere };
    for (const track of [0, 1] as const) {
      const step = pass(problem, demanded, track, from ? cells[from.cell]! : null, from ? from.counts[track] : 0, null);
      if (step.stop) return { reason: step.stop, track, index: step.run };
    }
    return null;
  }

  function expand(from: Entry | null, next: Entry[]): void {
    const start = from ? cells[from.cell]! : null;
    const dueHere = from ? due[from.cell]! : due[cells.length]!;
    const deadline = dueHere < 0 ? Number.POSITIVE_INFINITY : windows[dueHere]!.hi;
    const known = next.length;
    let tooFar: { track: 0 | 1; run: number; at: number } | null = null;
    for (let j = from ? from.cell : 0; j < cells.length; j++) {
      const cell = cells[j]!;
      let lo = cell.lo;
      let hi = cell.hi;
      if (from) {
        if (from.lo + least > hi) continue;
        lo = Math.max(lo, from.lo + least);
      }
      if (cell.lo > deadline) {
        note("window", 0, dueHere, deadline);
        return;
      }
      const a = pass(problem, demanded, 0, start, from ? from.counts[0] : 0, cell);
      const b = a.stop && a.final ? a : pass(problem, demanded, 1, start, from ? from.counts[1] : 0, cell);
      const bad = a.stop ? a : b.stop ? b : null;
      if (bad) {
        const track = a.stop ? 0 : 1;
        const final = a.final || b.final;
        if (!bad.stop) continue;
        if (tooFar && final) note("space", tooFar.track, tooFar.run, cell.lo);
        else note(bad.stop, track, bad.run, cell.lo);
        if (final) return;
        continue;
      }
      if (from && (a.tied || b.tied) && hi > from.hi + most) {
        hi = from.hi + most;
        if (lo > hi) {
          if (!tooFar) tooFar = { track: a.tied ? 0 : 1, run: a.tied ? a.run : b.run, at: cell.lo };
          continue;
        }
      }
      if (lo <= hi) add(next, { lo, hi, cell: j, counts: [a.count, b.count] });
    }
    const bar = next.length > known ? null : endBar(from);
    if (tooFar) note("space", tooFar.track, tooFar.run, tooFar.at);
    else if (bar) note(bar.reason, bar.track, bar.index, cells.length > 0 ? cells[cells.length - 1]!.hi + 1 : 0);
  }

  function add(next: Entry[], entry: Entry): void {
    let parts: Interval[] = [entry];
    for (const old of seen[entry.cell]!) {
      if (old.counts[0] < entry.counts[0] || old.counts[1] < entry.counts[1]) continue;
      parts = parts.flatMap((p) => cutOut(p, old));
      if (parts.length === 0) return;
    }
    for (const part of parts) {
      const kept = { lo: part.lo, hi: part.hi, cell: entry.cell, counts: entry.counts };
      seen[entry.cell]!.push(kept);
      next.push(kept);
    }
  }

  if (!endBar(null)) return { points: [], blocked: null };
  let layer: Entry[] = [];
  expand(null, layer);
  while (layer.length > 0) {
    layers.push(layer);
    const ends = layer.filter((entry) => !endBar(entry));
    if (ends.length > 0) return { points: walkBack(problem, demanded, due, layers, ends, prefer), blocked: null };
    const next: Entry[] = [];
    for (const entry of layer) expand(entry, next);
    layer = next;
  }
  return { points: null, blocked };
}

/** Does a list of points keep every rule? */
function keepsAll(problem: CoverProblem, points: readonly { at: number; cell: number }[]): boolean {
  const { cells, windows, least, most } = problem;
  const demanded = problem.needs.map(prefixOfDemands) as [number[], number[]];
  const due = dueWindows(cells, windows);
  let from: { at: number; cell: number } | null = null;
  let counts: [number, number] = [0, 0];
  for (let i = 0; i <= points.length; i++) {
    const to = i < points.length ? points[i]! : null;
    const deadline = due[from ? from.cell : cells.length]!;
    if (deadline >= 0 && (!to || to.at > windows[deadline]!.hi)) return false;
    const start: Cell | null = from ? cells[from.cell]! : null;
    const end = to ? cells[to.cell]! : null;
    const a = pass(problem, demanded, 0, start, counts[0], end);
    const b = pass(problem, demanded, 1, start, counts[1], end);
    if (a.stop || b.stop) return false;
    if (from && to) {
      const apart = to.at - from.at;
      if (apart < least || ((a.tied || b.tied) && apart > most)) return false;
    }
    from = to;
    counts = [a.count, b.count];
  }
  return true;
}

interface Pass {
  count: number;
  /** The two points share a run that limits their distance. */
  tied: boolean;
  run: number;
  stop: "skip" | "count" | "close" | "open" | null;
  /** No later cell can do better. */
  final: boolean;
}

/** What one track says to two neighbouring points; null is before the first or after the last. */
function pass(
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

/** From the last point back to the first: any place of the layer before that can step to the one chosen will do. */
function walkBack(
  problem: CoverProblem,
  demanded: readonly [number[], number[]],
  due: readonly number[],
  layers: readonly Entry[][],
  ends: readonly Entry[],
  prefer: (lo: number, hi: number) => number,
): { at: number; cell: number }[] {
  const { cells, windows, least, most } = problem;
  const points: { at: number; cell: number }[] = [];
  let target = widest(ends);
  let at = prefer(target.lo, target.hi);
  points.push({ at, cell: target.cell });
  for (let j = layers.length - 2; j >= 0; j--) {
    const choices: Entry[] = [];
    for (const entry of layers[j]!) {
      const deadline = due[entry.cell]!;
      if (deadline >= 0 && at > windows[deadline]!.hi) continue;
      const a = pass(problem, demanded, 0, cells[entry.cell]!, entry.counts[0], cells[target.cell]!);
      const b = pass(problem, demanded, 1, cells[entry.cell]!, entry.counts[1], cells[target.cell]!);
      if (a.stop || b.stop || a.count < target.counts[0] || b.count < target.counts[1]) continue;
      const lo = a.tied || b.tied ? Math.max(entry.lo, at - most) : entry.lo;
      const hi = Math.min(entry.hi, at - least);
      if (lo <= hi) choices.push({ lo, hi, cell: entry.cell, counts: entry.counts });
    }
    target = widest(choices);
    at = prefer(target.lo, target.hi);
    points.push({ at, cell: target.cell });
  }
  return points.reverse();
}

function widest(entries: readonly Entry[]): Entry {
  let best = entries[0]!;
  for (const entry of entries) if (entry.hi - entry.lo > best.hi - best.lo) best = entry;
  return best;
}

function prefixOfDemands(needs: readonly number[]): number[] {
  const out = [0];
  for (const need of needs) out.push(out[out.length - 1]! + (need > 0 ? 1 : 0));
  return out;
}

/** By cell (and, last, before all cells): the window that starts later and ends first, or -1. */
function dueWindows(cells: readonly Cell[], windows: readonly Interval[]): number[] {
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

function cutOut(part: Interval, hole: Interval): Interval[] {
  if (hole.hi < part.lo || hole.lo > part.hi) return [part];
  const out: Interval[] = [];
  if (part.lo < hole.lo) out.push({ lo: part.lo, hi: hole.lo - 1 });
  if (part.hi > hole.hi) out.push({ lo: hole.hi + 1, hi: part.hi });
  return out;
}
