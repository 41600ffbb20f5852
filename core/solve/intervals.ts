/** Sets of whole numbers as sorted, disjoint, closed intervals. All functions are linear in their inputs. */
export interface Interval {
  lo: number;
  hi: number;
}

/** Sorts and joins intervals that overlap or touch; empty ones (hi < lo) are dropped. */
export function joinIntervals(parts: readonly Interval[]): Interval[] {
  const sorted = parts.filter((p) => p.hi >= p.lo).sort((p, q) => p.lo - q.lo || p.hi - q.hi);
  const out: Interval[] = [];
  for (const part of sorted) {
    const last = out[out.length - 1];
    if (last && part.lo <= last.hi + 1) last.hi = Math.max(last.hi, part.hi);
    else out.push({ lo: part.lo, hi: part.hi });
  }
  return out;
}

/** What of [lo, hi] lies in none of `barred` (sorted, disjoint, as from `joinIntervals`). */
export function freeOf(lo: number, hi: number, barred: readonly Interval[]): Interval[] {
  const out: Interval[] = [];
  let from = lo;
  for (const zone of barred) {
    if (zone.hi < from) continue;
    if (zone.lo > hi) break;
    if (zone.lo > from) out.push({ lo: from, hi: zone.lo - 1 });
    from = zone.hi + 1;
  }
  if (from <= hi) out.push({ lo: from, hi });
  return out;
}

/** What both sets hold; both sorted and disjoint. */
export function bothOf(one: readonly Interval[], other: readonly Interval[]): Interval[] {
  const out: Interval[] = [];
  for (let i = 0, j = 0; i < one.length && j < other.length; ) {
    const lo = Math.max(one[i]!.lo, other[j]!.lo);
    const hi = Math.min(one[i]!.hi, other[j]!.hi);
    if (lo <= hi) out.push({ lo, hi });
    if (one[i]!.hi < other[j]!.hi) i++;
    else j++;
  }
  return out;
}

/** Most points that fit into a set at least `least` apart: from the left, each as early as it can be. */
export function mostPoints(set: readonly Interval[], least: number, enough: number): number {
  let count = 0;
  let next = Number.NEGATIVE_INFINITY;
  for (const part of set) {
    let at = Math.max(part.lo, next);
    while (at <= part.hi && count < enough) {
      count++;
      next = at + least;
      at = next;
    }
    if (count >= enough) break;
  }
  return count;
}
