import type { Cell, CoverProblem, Hold } from "../../solve/interval-cover.ts";
import type { Interval } from "../../solve/intervals.ts";
import type { Demands } from "./demands.ts";
import type { ClipRules } from "./rules.ts";
import type { Run } from "./runs.ts";

/** A cell with the whole stretch in which a clip holds the same runs and nothing bars it. */
export interface SeamCell extends Cell {
  zone: Interval;
}
interface Stretch extends Interval {
  n: number;
  k: 0 | 1 | 2;
}

/**
 * The seam as a cover problem with `slack` in hand: each clip of a solution may move by `slack` either way, the others
 * standing, and every rule still holds and it still holds the same pieces.
 */
export function coverProblem(demands: Demands, rules: ClipRules, slack: number): CoverProblem & { cells: SeamCell[] } {
  const windows = demands.windows
    .map((w) => ({ lo: w.lo + slack, hi: w.hi - slack }))
    .sort((p, q) => p.lo - q.lo || p.hi - q.hi);
  const cells: SeamCell[] = [];
  const [above, below] = demands.tracks;
  const a = stretchesOf(above);
  const b = stretchesOf(below);
  let i = 0;
  let j = 0;
  let w = 0;
  for (const part of demands.allowed) {
    while (a[i]!.hi < part.lo) i++;
    while (b[j]!.hi < part.lo) j++;
    let lo = part.lo;
    while (lo <= part.hi) {
      const sa = a[i]!;
      const sb = b[j]!;
      const hi = Math.min(part.hi, sa.hi, sb.hi);
      if (sa.k + sb.k > 0 && hi - lo >= 2 * slack) {
        while (w < windows.length && windows[w]!.hi < lo) w++;
        cutZone({ lo, hi }, slack, above, sa, below, sb, windows, w, cells);
      }
      if (hi >= part.hi) break;
      if (sa.hi === hi) i++;
      if (sb.hi === hi) j++;
      lo = hi + 1;
    }
  }
  return {
    cells,
    needs: [above.map((r) => r.need), below.map((r) => r.need)],
    windows,
    least: rules.length + slack,
    most: Math.max(rules.most - slack, rules.length + slack),
  };
}

/** The whole line as stretches of equal meaning to one track. */
function stretchesOf(runs: readonly Run[]): Stretch[] {
  const out: Stretch[] = [];
  let from = Number.NEGATIVE_INFINITY;
  for (let n = 0; n < runs.length; n++) {
    const run = runs[n]!;
    if (run.lo > from) out.push({ lo: from, hi: run.lo - 1, n, k: 0 });
    const next = runs[n + 1];
    const start = Math.max(run.lo, from);
    const alone = next ? Math.min(run.hi, next.lo - 1) : run.hi;
    if (alone >= start) out.push({ lo: start, hi: alone, n, k: 1 });
    if (next && next.lo <= run.hi) out.push({ lo: Math.max(next.lo, start), hi: run.hi, n, k: 2 });
    from = run.hi + 1;
  }
  out.push({ lo: from, hi: Number.POSITIVE_INFINITY, n: runs.length, k: 0 });
  return out;
}

function cutZone(
  zone: Interval,
  slack: number,
  above: readonly Run[],
  sa: Stretch,
  below: readonly Run[],
  sb: Stretch,
  windows: readonly Interval[],
  w: number,
  cells: SeamCell[],
): void {
  const lo = zone.lo + slack;
  const hi = zone.hi - slack;
  const seam = sa.k > 0 && sb.k > 0;
  const cuts: number[] = [];
  const cut = (at: number): void => {
    if (at > lo && at <= hi) cuts.push(at);
  };
  for (const [runs, s] of [
    [above, sa],
    [below, sb],
  ] as const) {
    for (let r = s.n; r < s.n + s.k; r++) {
      cut((seam ? runs[r]!.openSeam : runs[r]!.openAlone) - slack + 1);
      cut((seam ? runs[r]!.closeSeam : runs[r]!.closeAlone) + slack);
    }
  }
  for (let k = w; k < windows.length && windows[k]!.lo <= hi; k++) {
    cut(windows[k]!.lo);
    cut(windows[k]!.hi + 1);
  }
  cuts.sort((p, q) => p - q);
  let from = lo;
  for (let c = 0; c <= cuts.length; c++) {
    const next = c < cuts.length ? cuts[c]! : hi + 1;
    if (next <= from) continue;
    const part = { lo: from, hi: next - 1 };
    cells.push({ ...part, zone, holds: [holdOf(above, sa, part, seam, slack), holdOf(below, sb, part, seam, slack)] });
    from = next;
  }
}

function holdOf(runs: readonly Run[], s: Stretch, part: Interval, seam: boolean, slack: number): Hold {
  const open = (r: number): boolean => part.hi <= (seam ? runs[r]!.openSeam : runs[r]!.openAlone) - slack;
  const close = (r: number): boolean => part.lo >= (seam ? runs[r]!.closeSeam : runs[r]!.closeAlone) + slack;
  return {
    n: s.n,
    k: s.k,
    open0: s.k > 0 && open(s.n),
    close0: s.k > 0 && close(s.n),
    open1: s.k === 2 && open(s.n + 1),
    close1: s.k === 2 && close(s.n + 1),
  };
}
