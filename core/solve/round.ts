import type { Bin, Budget, PackingLimits, Room } from "./bins.ts";
import { type Column, coverByColumns } from "./columns.ts";
import { exactPacking } from "./exact.ts";
import { bestFit, sequence } from "./fill.ts";
import { bestPattern } from "./knapsack.ts";

/** Most items left over by rounding that are searched exhaustively. */
const EXACT_ITEMS = 24;

export interface Rounded {
  packings: Iterable<Bin[]>;
  /** Least cost of any packing, by the programme's duals scaled to be valid; already rounded up where all costs are whole. */
  atLeast: number;
}

/** The column-generation programme over all stocks, rounded in several ways with the rest packed greedily. */
export function roundColumns(room: Room, limits: PackingLimits, budget: Budget): Rounded {
  const kinds = room.sizes.map((_, i) => i).filter((i) => room.counts[i]! > 0);
  const sizes = kinds.map((i) => room.sizes[i]!);
  const demand = kinds.map((i) => room.counts[i]!);
  let over = 1;
  const price = (duals: readonly number[]): Column | null => {
    let best: Column | null = null;
    let gain = 1 + 1e-9;
    over = 1;
    for (let t = 0; t < room.caps.length; t++) {
      const cost = room.costs[t]!;
      const found = bestPattern(sizes, duals, demand, room.caps[t]!, cost * gain, limits.nodes);
      budget.left -= found.steps + sizes.length;
      over = Math.max(over, found.upper / cost);
      if (found.counts === null) continue;
      gain = found.value / cost;
      best = { cost, counts: found.counts, tag: t };
    }
    return best;
  };
  const lp = coverByColumns(
    demand,
    sizes.map((size, i) => startColumn(room, sizes, demand, size, i)),
    (duals) => (budget.left > 0 ? price(duals) : null),
    limits.columns,
  );
  // The last duals were not priced when columns or nodes ran out.
  if (!lp.finished || budget.left <= 0) price(lp.duals);
  let value = 0;
  for (let i = 0; i < demand.length; i++) value += lp.duals[i]! * demand[i]!;
  let atLeast = (value / over) * (1 - 1e-11);
  if (room.caps.length === 1) atLeast = Math.ceil(atLeast / room.costs[0]! - 1e-6) * room.costs[0]!;
  else if (room.costs.every((c) => Number.isInteger(c))) atLeast = Math.ceil(atLeast - 1e-6);
  return { packings: roundings(room, kinds, demand, lp.used, limits, budget), atLeast };
}

function startColumn(room: Room, sizes: readonly number[], demand: readonly number[], size: number, i: number): Column {
  let best = -1;
  let bestN = 0;
  for (let t = 0; t < room.caps.length; t++) {
    const n = Math.min(demand[i]!, Math.floor(room.caps[t]! / size));
    if (n > 0 && (best < 0 || room.costs[t]! * bestN < room.costs[best]! * n)) {
      best = t;
      bestN = n;
    }
  }
  const counts = new Array<number>(sizes.length).fill(0);
  counts[i] = bestN;
  return { cost: room.costs[best]!, counts, tag: best };
}

/** Rounds down, then the k columns with the largest fractions up (as far as demand allows), rest by both greedy ways. */
function* roundings(
  room: Room,
  kinds: readonly number[],
  demand: readonly number[],
  used: readonly { column: Column; times: number }[],
  limits: PackingLimits,
  budget: Budget,
): Generator<Bin[]> {
  const order = used.slice().sort((a, b) => fraction(b.times) - fraction(a.times));
  const most = Math.min(order.length, 10);
  for (let up = 0; up <= most; up++) {
    const rest = demand.slice();
    const bins: Bin[] = [];
    const put = (column: Column, times: number): void => {
      let n = times;
      for (let i = 0; i < rest.length; i++)
        if (column.counts[i]! > 0) n = Math.min(n, Math.floor(rest[i]! / column.counts[i]!));
      if (n <= 0) return;
      const counts: [number, number][] = [];
      for (let i = 0; i < rest.length; i++) {
        if (column.counts[i]! === 0) continue;
        counts.push([kinds[i]!, column.counts[i]!]);
        rest[i]! -= n * column.counts[i]!;
      }
      bins.push({ stock: column.tag, counts, times: n });
    };
    for (const { column, times } of order) put(column, Math.floor(times + 1e-7));
    for (let k = 0; k < up; k++) put(order[k]!.column, 1);
    const left = new Array<number>(room.sizes.length).fill(0);
    for (let i = 0; i < rest.length; i++) left[kinds[i]!] = rest[i]!;
    for (let t = 0; t < room.caps.length; t++) yield [...copy(bins), ...bestFit(room, t, left)];
    const open = left.reduce((a, b) => a + b, 0);
    if (open > 0 && open <= EXACT_ITEMS && up < 3 && limits.exact > 0) {
      const above = room.costs.reduce((a, b) => Math.max(a, b), 0) * open + 1;
      const rest = exactPacking(room, left, above, { left: limits.exact });
      if (rest !== null) yield [...copy(bins), ...rest];
    }
    const values = room.sizes.slice();
    for (let r = 0; r < 3; r++) yield [...copy(bins), ...sequence(room, left, values, limits.nodes, budget, true)];
  }
}

function copy(bins: readonly Bin[]): Bin[] {
  return bins.map((b) => ({ ...b }));
}

function fraction(x: number): number {
  return x + 1e-7 - Math.floor(x + 1e-7);
}
