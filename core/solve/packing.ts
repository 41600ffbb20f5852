import type { Bin, Budget, Item, Packing, PackingLimits, Room, Stock } from "./bins.ts";
import { boundByFunctions } from "./dff.ts";
import { exactPacking } from "./exact.ts";
import { bestFit, valueCorrection } from "./fill.ts";
import { roundColumns } from "./round.ts";

export const PACKING_LIMITS: PackingLimits = {
  lpItems: 160,
  columns: 2_000,
  nodes: 20_000,
  allNodes: 600_000,
  exact: 100_000,
  rounds: 24,
};

/** Above this many items an exhaustive search is not begun. */
const EXACT_ITEMS = 60;

/**
 * Cuts items from stock lengths at least cost (one-dimensional cutting stock), then with fewest cuts, then with the rest
 * in few long ends. Lengths are whole numbers in one unit; `kerf` is lost between neighbours, not at the stock's ends:
 * exact by adding it to every item and to every stock length.
 * Best-fit decreasing, sequential value correction (Belov & Scheithauer 2006) and rounding of the column-generation
 * programme (Gilmore & Gomory 1961), the rest of few items exhaustively within a budget; stops as soon as the material or a dual-feasible-function bound is met.
 * Items longer than every stock length are not packed: the caller must not ask for them.
 */
export function packLengths(
  stocks: readonly Stock[],
  items: readonly Item[],
  kerf: number,
  limits: PackingLimits = PACKING_LIMITS,
): Packing {
  const room: Room = {
    caps: stocks.map((s) => s.length + kerf),
    costs: stocks.map((s) => s.cost),
    supply: stocks.map((s) => s.supply ?? Number.POSITIVE_INFINITY),
    sizes: items.map((i) => i.length + kerf),
    counts: items.map((i) => i.count),
  };
  if (!room.counts.some((n) => n > 0)) return { bins: [], cost: 0, missing: 0 };
  const atLeast = costAtLeast(room);
  const budget = (): Budget => ({ left: limits.allNodes });
  let best: Packing | null = null;
  const offer = (bins: Bin[]): boolean => {
    const made = settle(room, bins);
    if (best === null || better(room, made, best)) best = made;
    return best.missing === 0 && best.cost <= atLeast;
  };
  for (let t = 0; t < stocks.length; t++) if (offer(bestFit(room, t))) return gathered(room, best!);
  const kinds = room.counts.reduce((n, c) => n + (c > 0 ? 1 : 0), 0);
  // Many different lengths pack almost perfectly anyway, and a round costs a knapsack a pattern.
  const rounds = kinds > 400 ? 1 : kinds > limits.lpItems ? 4 : limits.rounds;
  if (kinds <= limits.lpItems && stocks.every((s) => s.supply === null)) {
    const rounded = roundColumns(room, limits, budget());
    const lpAtLeast = rounded.atLeast;
    for (const bins of rounded.packings) if (offer(bins)) return gathered(room, best!);
    if (best!.cost <= lpAtLeast) return gathered(room, best!);
    valueCorrection(room, rounds, limits.nodes, budget(), (bins) => offer(bins) || best!.cost <= lpAtLeast);
    if (best!.cost <= lpAtLeast) return gathered(room, best!);
  } else valueCorrection(room, rounds, limits.nodes, budget(), offer);
  const few = room.counts.reduce((a, b) => a + b, 0) <= EXACT_ITEMS;
  const exact = few && best!.missing === 0 ? exactPacking(room, room.counts, best!.cost, { left: limits.exact }) : null;
  if (exact !== null) offer(exact);
  return gathered(room, best!);
}

/** Least cost by material; with one stock also by dual-feasible functions. */
function costAtLeast(room: Room): number {
  let rate = Number.POSITIVE_INFINITY;
  for (let t = 0; t < room.caps.length; t++) rate = Math.min(rate, room.costs[t]! / room.caps[t]!);
  let total = 0;
  for (let i = 0; i < room.sizes.length; i++) total += room.sizes[i]! * room.counts[i]!;
  if (room.caps.length > 1) return rate * total * (1 - 1e-12);
  return boundByFunctions(room.caps[0]!, room.sizes, room.counts).bins * room.costs[0]!;
}

/** Each bin from the cheapest stock that holds it and is at hand. */
function settle(room: Room, bins: readonly Bin[]): Packing {
  const left = room.supply.slice();
  const order = room.caps
    .map((_, t) => t)
    .sort((a, b) => room.costs[a]! - room.costs[b]! || room.caps[a]! - room.caps[b]!);
  const used = bins.map((b) => usedBy(room, b));
  // Longest contents first: they have the fewest stocks to choose from.
  const byUse = bins.map((_, k) => k).sort((a, b) => used[b]! - used[a]! || a - b);
  const out: Bin[][] = bins.map(() => []);
  let cost = 0;
  let missing = 0;
  for (const k of byUse) {
    let times = bins[k]!.times;
    for (const t of order) {
      if (times === 0) break;
      if (room.caps[t]! < used[k]! || left[t]! <= 0) continue;
      const n = Math.min(times, left[t]!);
      left[t]! -= n;
      times -= n;
      cost += n * room.costs[t]!;
      out[k]!.push({ stock: t, counts: bins[k]!.counts, times: n });
    }
    if (times > 0) {
      const t = order.find((s) => room.caps[s]! >= used[k]!)!;
      missing += times;
      cost += times * room.costs[t]!;
      out[k]!.push({ stock: t, counts: bins[k]!.counts, times });
    }
  }
  return { bins: out.flat(), cost, missing };
}

export function usedBy(room: Room, bin: Bin): number {
  let sum = 0;
  for (const [i, n] of bin.counts) sum += n * room.sizes[i]!;
  return sum;
}

function better(room: Room, a: Packing, b: Packing): boolean {
  if (a.missing !== b.missing) return a.missing < b.missing;
  const eps = 1e-9 * (a.cost + b.cost);
  if (Math.abs(a.cost - b.cost) > eps) return a.cost < b.cost;
  const x = tidiness(room, a);
  const y = tidiness(room, b);
  return x.cuts !== y.cuts ? x.cuts < y.cuts : x.rest > y.rest * (1 + 1e-12);
}

/** Saw cuts, and the sum of the squared rests: larger where what is left lies in few long ends. */
function tidiness(room: Room, p: Packing): { cuts: number; rest: number } {
  let cuts = 0;
  let rest = 0;
  for (const bin of p.bins) {
    let n = 0;
    for (const [, k] of bin.counts) n += k;
    const over = room.caps[bin.stock]! - usedBy(room, bin);
    cuts += bin.times * (over === 0 ? n - 1 : n);
    rest += bin.times * over * over;
  }
  return { cuts, rest };
}

/** Empties the emptiest bin into the room the others have left, as far as that goes: one long end instead of many. */
function gathered(room: Room, packing: Packing): Packing {
  if (packing.bins.length > 600) return packing;
  const bins = packing.bins.flatMap((b) =>
    b.times === 1 ? [{ ...b, counts: b.counts.map(([i, n]): [number, number] => [i, n]) }] : [{ ...b }],
  );
  const rest = bins.map((b) => room.caps[b.stock]! - usedBy(room, b));
  let last = -1;
  for (let k = 0; k < bins.length; k++) if (bins[k]!.times === 1 && (last < 0 || rest[k]! > rest[last]!)) last = k;
  if (last < 0) return packing;
  const from = bins[last]!;
  const order = from.counts.slice().sort((a, b) => room.sizes[b[0]]! - room.sizes[a[0]]! || a[0] - b[0]);
  for (const entry of order) {
    while (entry[1] > 0) {
      let to = -1;
      for (let k = 0; k < bins.length; k++) {
        if (k === last || bins[k]!.times !== 1 || rest[k]! < room.sizes[entry[0]]!) continue;
        if (to < 0 || rest[k]! < rest[to]!) to = k;
      }
      if (to < 0) break;
      const there = bins[to]!.counts.find(([i]) => i === entry[0]);
      if (there) there[1]++;
      else bins[to]!.counts.push([entry[0], 1]);
      rest[to]! -= room.sizes[entry[0]]!;
      rest[last]! += room.sizes[entry[0]]!;
      entry[1]--;
    }
  }
  from.counts = from.counts.filter(([, n]) => n > 0);
  const kept = bins.filter((b) => b.counts.length > 0);
  const again = settle(room, kept);
  return better(room, again, packing) ? again : packing;
}
