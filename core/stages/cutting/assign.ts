import type { Bin } from "../../solve/bins.ts";
import type { Row } from "./chain.ts";
import type { Unit } from "./unit.ts";

/**
 * Which unit of a length goes to which board, so that the parts of one board are wanted close together in the laying
 * order: units are taken in that order; one that finds an opened board waiting for its length takes the oldest, else it
 * opens the board whose other lengths are wanted soonest. `items[k]` holds the units of length k in laying order.
 * O(units + opened boards * bins that hold the length).
 */
export function assignUnits(units: readonly Unit[], items: readonly number[][], bins: readonly Bin[]): Row[] {
  const left = bins.map((b) => b.times);
  const binsOf: number[][] = items.map(() => []);
  bins.forEach((bin, b) => {
    for (const [item] of bin.counts) binsOf[item]!.push(b);
  });
  const itemOf = new Int32Array(units.length).fill(-1);
  items.forEach((list, k) => {
    for (const u of list) itemOf[u] = k;
  });
  const waiting: Row[][] = items.map(() => []);
  const waitingFrom = items.map(() => 0);
  const taken = items.map(() => 0);
  const rows: Row[] = [];
  for (let u = 0; u < units.length; u++) {
    const item = itemOf[u]!;
    if (item < 0) continue;
    taken[item]!++;
    const queue = waiting[item]!;
    if (waitingFrom[item]! < queue.length) {
      const row = queue[waitingFrom[item]!++]!;
      row.square.push(u);
      continue;
    }
    const b = soonest(item);
    left[b]!--;
    const row: Row = { stock: bins[b]!.stock, square: [u], chain: [], usedUm: 0 };
    rows.push(row);
    for (const [other, n] of bins[b]!.counts)
      for (let k = other === item ? 1 : 0; k < n; k++) waiting[other]!.push(row);
  }
  return rows;

  function soonest(item: number): number {
    let best = -1;
    let bestAt = Number.POSITIVE_INFINITY;
    const list = binsOf[item]!;
    for (let k = 0; k < list.length; k++) {
      const b = list[k]!;
      if (left[b]! === 0) {
        list[k] = list[list.length - 1]!;
        list.pop();
        k--;
        continue;
      }
      let at = 0;
      for (const [other, n] of bins[b]!.counts) {
        const ahead = taken[other]! + (waiting[other]!.length - waitingFrom[other]!) + n - (other === item ? 2 : 1);
        at = Math.max(at, items[other]![Math.min(ahead, items[other]!.length - 1)]!);
      }
      if (at < bestAt || (at === bestAt && b < best)) {
        bestAt = at;
        best = b;
      }
    }
    return best;
  }
}
