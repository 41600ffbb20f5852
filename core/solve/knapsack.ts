/** Answer of `bestPattern`. `upper` is proved: no filling is worth more. It equals `value` when the search was finished. */
export interface Pattern {
  value: number;
  upper: number;
  /** How many of each item, in the order given; null when nothing beats `above`. */
  counts: number[] | null;
  /** Nodes visited. */
  steps: number;
}

/**
 * The most valuable filling of one length: max sum(values[i] * n[i]) with sum(lengths[i] * n[i]) <= capacity and
 * 0 <= n[i] <= limits[i]. Lengths are positive, in any one unit; items with a value of zero or less are left out.
 * Depth-first in order of value per length, cut off by the fractional bound (Gilmore & Gomory 1963).
 * Looks only for fillings worth more than `above`. Stops after `maxSteps` nodes; `upper` then is the root's bound.
 */
export function bestPattern(
  lengths: readonly number[],
  values: readonly number[],
  limits: readonly number[],
  capacity: number,
  above = 0,
  maxSteps = 50_000,
): Pattern {
  const order: number[] = [];
  for (let i = 0; i < lengths.length; i++)
    if (values[i]! > 0 && limits[i]! > 0 && lengths[i]! <= capacity) order.push(i);
  order.sort((a, b) => values[b]! * lengths[a]! - values[a]! * lengths[b]! || lengths[b]! - lengths[a]! || a - b);
  const m = order.length;
  const len = order.map((i) => lengths[i]!);
  const val = order.map((i) => values[i]!);
  const lim = order.map((i) => limits[i]!);
  const shortest = shortestFrom(len);
  const taken = new Array<number>(m).fill(0);
  let best = above;
  let bestTaken: number[] | null = null;
  let steps = 0;

  const fill = (from: number, room: number, worth: number): void => {
    if (worth > best) {
      best = worth;
      bestTaken = taken.slice();
    }
    for (let i = from; i < m; i++) {
      if (room < shortest[i]!) return;
      // Nothing from here on is worth more per length than item i.
      if (worth + (room * val[i]!) / len[i]! <= best) return;
      if (len[i]! > room) continue;
      const most = Math.min(lim[i]!, Math.floor(room / len[i]!));
      for (let n = most; n >= 1; n--) {
        if (++steps > maxSteps) return;
        taken[i] = n;
        fill(i + 1, room - n * len[i]!, worth + n * val[i]!);
      }
      taken[i] = 0;
    }
  };
  fill(0, capacity, 0);

  const counts = bestTaken === null ? null : spread(bestTaken, order, lengths.length);
  const root = m > 0 ? (capacity * val[0]!) / len[0]! : 0;
  return { value: best, upper: steps > maxSteps ? Math.max(best, root) : best, counts, steps };
}

/** Shortest length at or after each place. */
function shortestFrom(len: readonly number[]): number[] {
  const out = len.slice();
  for (let i = out.length - 2; i >= 0; i--) out[i] = Math.min(out[i]!, out[i + 1]!);
  return out;
}

function spread(taken: readonly number[], order: readonly number[], size: number): number[] {
  const counts = new Array<number>(size).fill(0);
  for (let k = 0; k < order.length; k++) counts[order[k]!] = taken[k]!;
  return counts;
}
