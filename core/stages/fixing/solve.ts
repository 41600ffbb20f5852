import { type Cell, coverLine } from "../../solve/interval-cover.ts";
import { joinIntervals } from "../../solve/intervals.ts";
import type { Zone } from "./barred.ts";
import { coverProblem } from "./cells.ts";
import { type Demands, demandsOf, type Excuse, excuse, refuseWindow } from "./demands.ts";
import { type Placed, settle } from "./place.ts";
import type { ClipRules } from "./rules.ts";
import type { Seam } from "./runs.ts";

export interface SeamAnswer {
  clips: Placed[];
  excuses: Excuse[];
}
/** Shares of the tolerance tried as slack, on whole centimetres or anywhere; the first that costs no clip is taken. */
const ATTEMPTS: readonly (readonly [share: number, grid: boolean])[] = [
  [1, true],
  [1, false],
  [0.5, true],
  [0.5, false],
  [0.25, false],
  [0, true],
];
const GRID = 10_000;

/**
 * Every clip of one seam, least in number over all whole-micrometre places, then placed with slack in hand.
 * Demands that clash are given up one at a time, each with its excuse, until the rest can be met.
 */
export function solveSeam(seam: Seam, zones: Zone[], rules: ClipRules): SeamAnswer {
  const demands = demandsOf(seam, zones, rules);
  const prefer = (lo: number, hi: number): number => Math.floor((lo + hi) / 2);
  let problem = coverProblem(demands, rules, 0);
  let result = coverLine(problem, prefer);
  const most = demandCount(demands);
  for (let given = 0; result.points === null; given++) {
    if (given > most) throw new Error("a seam gave up more demands than it has");
    giveUp(demands, result.blocked, rules);
    problem = coverProblem(demands, rules, 0);
    result = coverLine(problem, prefer);
  }
  const least = result.points.length;
  for (const [share, grid] of ATTEMPTS) {
    const slack = Math.round(rules.tolerance * share);
    const tight = coverProblem(demands, rules, slack);
    const points = grid ? onGrid(tight, seam.datumUm) : coverLine(tight, prefer).points;
    if (points !== null && points.length === least)
      return { clips: settle(demands, tight, points, rules, slack), excuses: demands.excuses };
  }
  return { clips: settle(demands, problem, result.points, rules, 0), excuses: demands.excuses };
}

/** As many as can be given up: of a window itself and its two fallbacks, of a run every clip, both ends and the run. */
function demandCount(demands: Demands): number {
  let count = 3 * demands.windows.length;
  for (const track of demands.tracks) for (const run of track) count += run.need + 3;
  return count;
}

/** The same problem on whole centimetres from the datum; null where it cannot be met there. */
function onGrid(problem: ReturnType<typeof coverProblem>, datum: number): { at: number; cell: number }[] | null {
  const up = (um: number): number => Math.ceil((um - datum) / GRID);
  const down = (um: number): number => Math.floor((um - datum) / GRID);
  const from: number[] = [];
  const cells: Cell[] = [];
  problem.cells.forEach((cell, i) => {
    const lo = up(cell.lo);
    const hi = down(cell.hi);
    if (lo > hi) return;
    from.push(i);
    cells.push({ lo, hi, holds: cell.holds });
  });
  const windows = problem.windows.map((w) => ({ lo: up(w.lo), hi: down(w.hi) }));
  if (windows.some((w) => w.lo > w.hi)) return null;
  const least = Math.ceil(problem.least / GRID);
  const most = Math.floor(problem.most / GRID);
  if (most < least) return null;
  const middle = (lo: number, hi: number): number => Math.floor((lo + hi) / 2);
  const { points } = coverLine({ cells, needs: problem.needs, windows, least, most }, middle);
  return points === null ? null : points.map((p) => ({ at: datum + p.at * GRID, cell: from[p.cell]! }));
}

/** Gives up the demand that stopped the search, and says so. */
function giveUp(
  demands: Demands,
  blocked: { reason: string; track: 0 | 1; index: number; at: number },
  rules: ClipRules,
): void {
  if (blocked.reason === "space") {
    // A clip under a joint may bar the place beside it that the next one needs: then one for each end serves both.
    const joint = demands.windows.find((w) => w.fallback.length > 0 && w.lo <= blocked.at && w.hi >= blocked.at);
    if (joint) {
      demands.windows = demands.windows.filter((w) => w !== joint);
      refuseWindow(joint, joinIntervals(demands.zones), demands);
      return;
    }
  }
  if (blocked.reason === "window") {
    const ordered = [...demands.windows].sort((p, q) => p.lo - q.lo || p.hi - q.hi);
    const window = ordered[blocked.index]!;
    demands.windows = demands.windows.filter((w) => w !== window);
    refuseWindow(window, joinIntervals(demands.zones), demands);
    return;
  }
  const runs = demands.tracks[blocked.track];
  const run = runs[blocked.index]!;
  const change = (to: Partial<typeof run>): void => {
    runs[blocked.index] = { ...run, ...to };
  };
  const track = blocked.track;
  if (blocked.reason === "close" && Number.isFinite(run.closeSeam)) {
    demands.excuses.push(excuse(demands, "clipEnd", track, run.b, run.b, null, run.b - run.closeSeam));
    change({ closeSeam: Number.NEGATIVE_INFINITY, closeAlone: Number.NEGATIVE_INFINITY });
  } else if (blocked.reason === "open" && Number.isFinite(run.openSeam)) {
    demands.excuses.push(excuse(demands, "clipEnd", track, run.a, run.a, null, run.openSeam - run.a));
    change({ openSeam: Number.POSITIVE_INFINITY, openAlone: Number.POSITIVE_INFINITY });
  } else if (blocked.reason === "count" && run.need > 1) {
    demands.excuses.push(excuse(demands, "clips", track, run.a, run.b, run.need - 1, run.need));
    change({ need: run.need - 1 });
  } else if (blocked.reason === "space") {
    demands.excuses.push(excuse(demands, "clipSpacing", track, run.a, run.b, null, rules.most));
    change({ need: 0 });
  } else {
    demands.excuses.push(excuse(demands, "clips", track, run.a, run.b, 0, run.need));
    change({ need: 0 });
  }
}
