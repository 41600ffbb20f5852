/**
 * The quick way to a least cover: always the last allowed place before the earliest demand still unmet.
 *
 * What it keeps by construction: every window, every run's first and last point, the greatest spacing. What it does not
 * look at: least distances and counts. So its number of points is a lower bound wherever no run may open later than
 * `most` into it and each may open only up to a place and close only from a place on (a point set early then never binds
 * more than one set late: the greedy point is never behind that of any other cover, by induction); and a result that keeps every rule is least. The caller proves the result rule by
 * rule, and asks the exact search otherwise. One pass over the cells.
 */
import type { Cell, CoverProblem } from "./interval-rules.ts";

/** Places and cells, or null where the quick way is not open. Cost: linear in cells and windows (after a sort). */
export function greedyPoints(problem: CoverProblem): { at: number; cell: number }[] | null {
  const { cells, most } = problem;
  const demands = demandsOf(problem);
  if (!demands) return null;
  const { los, dueFrom } = demands;
  const points: { at: number; cell: number }[] = [];
  let d = 0;
  let c = 0;
  let at = Number.NEGATIVE_INFINITY;
  let here: Cell | null = null;
  for (;;) {
    while (d < los.length && los[d]! <= at) d++;
    let deadline = dueFrom[d]!;
    if (here && opensOn(problem, here)) deadline = Math.min(deadline, at + most);
    if (deadline === Number.POSITIVE_INFINITY) return points;
    while (c + 1 < cells.length && cells[c + 1]!.lo <= deadline) c++;
    const cell = cells[c];
    if (!cell || cell.lo > deadline) return null;
    const next = Math.min(deadline, cell.hi);
    if (next <= at) return null;
    at = next;
    here = cell;
    points.push({ at, cell: c });
  }
}

/** Does a point in this cell leave a run that still needs one further on? */
function opensOn(problem: CoverProblem, cell: Cell): boolean {
  for (const track of [0, 1] as const) {
    const hold = cell.holds[track];
    if (hold.k === 0) continue;
    const run = hold.n + hold.k - 1;
    if (problem.needs[track][run]! > 0 && !(hold.k === 2 ? hold.close1 : hold.close0)) return true;
  }
  return false;
}

/** All intervals that need a point, by least lo, and for each place in that list the earliest end from there on. */
function demandsOf(problem: CoverProblem): { los: number[]; dueFrom: number[] } | null {
  const all = problem.windows.map((w) => ({ lo: w.lo, hi: w.hi }));
  for (const track of [0, 1] as const) {
    const needs = problem.needs[track];
    const start = new Array<number>(needs.length).fill(Number.POSITIVE_INFINITY);
    const shut = new Array<number>(needs.length).fill(Number.POSITIVE_INFINITY);
    const kept = new Array<number>(needs.length).fill(Number.NEGATIVE_INFINITY);
    const open = needs.map(() => ({ lo: Number.POSITIVE_INFINITY, hi: Number.NEGATIVE_INFINITY }));
    const close = needs.map(() => ({ lo: Number.POSITIVE_INFINITY, hi: Number.NEGATIVE_INFINITY }));
    for (const cell of problem.cells) {
      const hold = cell.holds[track];
      for (let k = 0; k < hold.k; k++) {
        const run = hold.n + k;
        if (cell.lo < start[run]!) start[run] = cell.lo;
        if (k === 0 ? hold.open0 : hold.open1) stretch(open[run]!, cell);
        else if (cell.lo < shut[run]!) shut[run] = cell.lo;
        if (k === 0 ? hold.close0 : hold.close1) stretch(close[run]!, cell);
        else kept[run] = cell.lo;
      }
    }
    for (let run = 0; run < needs.length; run++) {
      if (needs[run] === 0) continue;
      if (open[run]!.hi < open[run]!.lo || close[run]!.hi < close[run]!.lo) return null;
      if (open[run]!.hi - start[run]! > problem.most) return null;
      if (shut[run]! < open[run]!.hi || kept[run]! > close[run]!.lo) return null;
      all.push(open[run]!, close[run]!);
    }
  }
  all.sort((p, q) => p.lo - q.lo);
  const dueFrom = new Array<number>(all.length + 1).fill(Number.POSITIVE_INFINITY);
  for (let i = all.length - 1; i >= 0; i--) dueFrom[i] = Math.min(dueFrom[i + 1]!, all[i]!.hi);
  return { los: all.map((w) => w.lo), dueFrom };
}

function stretch(window: { lo: number; hi: number }, cell: Cell): void {
  if (cell.lo < window.lo) window.lo = cell.lo;
  if (cell.hi > window.hi) window.hi = cell.hi;
}
