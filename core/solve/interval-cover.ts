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
import { type Cell, type CoverProblem, dueWindows, pass, prefixOfDemands } from "./interval-rules.ts";
import type { Interval } from "./intervals.ts";

export type { Cell, CoverProblem, Hold } from "./interval-rules.ts";

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
  /** Only what stops a point that no other can follow counts, and of those the furthest along. */
  const stuck = (from: Entry | null, reason: Blocked["reason"], track: 0 | 1, index: number): void => {
    const at = from ? from.hi : Number.MIN_SAFE_INTEGER;
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
    let reached = false;
    let why: { reason: Blocked["reason"]; track: 0 | 1; index: number } | null = null;
    let tooFar = false;
    for (let j = from ? from.cell : 0; j < cells.length; j++) {
      const cell = cells[j]!;
      let lo = cell.lo;
      let hi = cell.hi;
      if (from) {
        if (from.lo + least > hi) continue;
        lo = Math.max(lo, from.lo + least);
      }
      if (cell.lo > deadline) {
        why ??= { reason: "window", track: 0, index: dueHere };
        break;
      }
      const a = pass(problem, demanded, 0, start, from ? from.counts[0] : 0, cell);
      const b = a.stop && a.final ? a : pass(problem, demanded, 1, start, from ? from.counts[1] : 0, cell);
      const bad = a.stop ? a : b.stop ? b : null;
      if (bad?.stop) {
        const final = a.final || b.final;
        if (!tooFar && (final || !why)) why = { reason: bad.stop, track: a.stop ? 0 : 1, index: bad.run };
        if (final) break;
        continue;
      }
      if (from && (a.tied || b.tied) && hi > from.hi + most) {
        hi = from.hi + most;
        if (lo > hi) {
          if (!tooFar) why = { reason: "space", track: a.tied ? 0 : 1, index: a.tied ? a.run : b.run };
          tooFar = true;
          continue;
        }
      }
      if (lo > hi) continue;
      reached = true;
      add(next, { lo, hi, cell: j, counts: [a.count, b.count] });
    }
    if (reached) return;
    why ??= endBar(from);
    if (why) stuck(from, why.reason, why.track, why.index);
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
  // Where every place seen leads only to places seen before, what bars an end after the last of them is what is asked.
  if (blocked.at === Number.NEGATIVE_INFINITY) {
    const last = layers.flat().reduce<Entry | null>((far, entry) => (far && far.hi > entry.hi ? far : entry), null);
    const bar = endBar(last);
    if (bar) stuck(last, bar.reason, bar.track, bar.index);
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

function cutOut(part: Interval, hole: Interval): Interval[] {
  if (hole.hi < part.lo || hole.lo > part.hi) return [part];
  const out: Interval[] = [];
  if (part.lo < hole.lo) out.push({ lo: part.lo, hi: hole.lo - 1 });
  if (part.hi > hole.hi) out.push({ lo: hole.hi + 1, hi: part.hi });
  return out;
}
