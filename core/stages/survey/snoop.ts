import { adjustDistances, type DistanceAdjustment, type DistanceNetwork } from "../../solve/adjust.ts";

export interface Snooped {
  /** Adjusted without the readings in `misread`. */
  adjustment: DistanceAdjustment;
  /** Indices into the network's readings, in the order they were found, each with the test value that found it. */
  misread: { index: number; w: number }[];
  /** Readings one of which is wrong, where no test tells which; empty where all is well. */
  suspects: number[];
  /** The one suspect whose slip alone would be a round figure, as slips of the eye are; it was left out. Else null. */
  likely: number | null;
  /** How far off each suspect would be, were it the one. */
  suspectsOff: number[];
}

/** Baarda's limit for one reading: 0.1 % false alarms. */
export const W_LIMIT = 3.29;
/** One suspect must explain the misfit better than any other by three standard deviations squared before it is named. */
const DECIDED = 9;
const RIVALS = 12;
/** More misread tapes than this share are not slips any more: something else is wrong, and none is left out. */
const MISREAD_SHARE = 0.2;

/**
 * Data snooping (Baarda 1968), one reading at a time: where a test value is beyond the limit, the network is adjusted
 * again without each of the strongest suspects, and the one whose absence mends it is named. Where two mend it alike
 * (as always with one reading too many), none is named and none left out. Null where the network cannot be adjusted.
 */
export function snoop(network: DistanceNetwork): Snooped | null {
  const misread: Snooped["misread"] = [];
  let kept = network.obs.map((_, i) => i);
  let current = adjustOf(network, kept);
  if (!current) return null;
  const all = current;
  const most = Math.max(1, Math.floor(MISREAD_SHARE * network.obs.length));
  for (;;) {
    const strong = suspectsOf(current);
    if (strong.length === 0) return clean(current, misread);
    const trials = strong
      .map((position) => {
        const rest = kept.filter((_, at) => at !== position);
        return { position, rest, without: adjustOf(network, rest) };
      })
      .filter((trial) => trial.without !== null)
      .sort((a, b) => a.without!.vtpv - b.without!.vtpv);
    const [best, second] = trials;
    if (!best) return clean(current, misread);
    if (second && second.without!.vtpv - best.without!.vtpv < DECIDED) {
      const near = trials.filter((trial) => trial.without!.vtpv - best.without!.vtpv < DECIDED);
      near.sort((a, b) => a.position - b.position);
      const offs = near.map(({ position, without }) => slipOf(current!, position, without!));
      const likely = roundest(near, offs);
      return {
        adjustment: likely ? likely.without! : current,
        misread,
        suspects: near.map((trial) => kept[trial.position]!),
        likely: likely ? kept[likely.position]! : null,
        suspectsOff: offs.map((one) => one.off),
      };
    }
    if (misread.length === most) return hopeless(all);
    misread.push({ index: kept[best.position]!, w: current.obs[best.position]!.w! });
    kept = best.rest;
    current = best.without!;
  }
}

/** Nothing is left out; the readings that fit worst are named. */
function hopeless(adjustment: DistanceAdjustment): Snooped {
  const suspects = suspectsOf(adjustment);
  const suspectsOff = suspects.map((i) => adjustment.obs[i]!.residual / -adjustment.obs[i]!.redundancy);
  return { adjustment, misread: [], suspects, likely: null, suspectsOff };
}

function clean(adjustment: DistanceAdjustment, misread: Snooped["misread"]): Snooped {
  return { adjustment, misread, suspects: [], likely: null, suspectsOff: [] };
}

/** What a reading differs by from the network without it, and how well that is known. */
function slipOf(
  current: DistanceAdjustment,
  position: number,
  without: DistanceAdjustment,
): { off: number; sigma: number } {
  const { from, to, measured, residual, w, redundancy } = current.obs[position]!;
  const [a, b] = [without.points[from]!, without.points[to]!];
  const off = measured - Math.sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
  // sd / sqrt(redundancy), sd taken back from the test value
  const sigma = w === null || w === 0 ? 0 : Math.abs(residual / w) / redundancy;
  return { off, sigma };
}

/**
 * The suspect whose slip would be a whole number of decimetres, as slips of the eye on a tape are (common practice, no
 * source), where no other suspect's is nearly as round: four to one in squared deviations is odds of seven to one.
 */
function roundest<T>(suspects: readonly T[], offs: readonly { off: number; sigma: number }[]): T | null {
  const ranked = suspects
    .map((suspect, i) => ({ suspect, square: squareFromRound(offs[i]!) }))
    .sort((a, b) => a.square - b.square);
  const [best, second] = ranked;
  return best && best.square <= 4 && (!second || second.square >= best.square + 4) ? best.suspect : null;
}

function squareFromRound({ off, sigma }: { off: number; sigma: number }): number {
  const decimetres = Math.round(Math.abs(off) / 100);
  // known too badly to call any figure round
  if (decimetres === 0 || sigma > 12) return Number.POSITIVE_INFINITY;
  const z = (Math.abs(off) - 100 * decimetres) / sigma;
  return z * z;
}

/** The network adjusted from some of its readings alone. */
function adjustOf(network: DistanceNetwork, kept: readonly number[]): DistanceAdjustment | null {
  const { sd } = network;
  const result = adjustDistances({
    ...network,
    obs: kept.map((i) => network.obs[i]!),
    sd: typeof sd === "number" ? sd : kept.map((i) => sd[i]!),
  });
  return result.ok ? result : null;
}

/** Places of the readings beyond the limit, strongest first. */
function suspectsOf(adjustment: DistanceAdjustment): number[] {
  return adjustment.obs
    .map((one, position) => ({ position, w: one.w === null ? 0 : Math.abs(one.w) }))
    .filter(({ w }) => w > W_LIMIT)
    .sort((a, b) => b.w - a.w || a.position - b.position)
    .slice(0, RIVALS)
    .map(({ position }) => position);
}
