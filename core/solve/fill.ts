import type { Bin, Budget, Room } from "./bins.ts";
import { bestPattern } from "./knapsack.ts";

/** Best-fit decreasing in groups of equal bins: O(kinds * groups). New bins are of stock `main` where it can be had. */
export function bestFit(room: Room, main: number, counts: readonly number[] = room.counts): Bin[] {
  const order = room.sizes.map((_, i) => i).filter((i) => counts[i]! > 0);
  order.sort((a, b) => room.sizes[b]! - room.sizes[a]! || a - b);
  const groups: { bin: Bin; left: number }[] = [];
  const supply = room.supply.slice();
  const shortest = order.length > 0 ? room.sizes[order[order.length - 1]!]! : 0;
  const closed: Bin[] = [];
  for (const i of order) {
    const size = room.sizes[i]!;
    let rest = counts[i]!;
    while (rest > 0) {
      let at = -1;
      for (let g = 0; g < groups.length; g++)
        if (groups[g]!.left >= size && (at < 0 || groups[g]!.left < groups[at]!.left)) at = g;
      if (at < 0) {
        const t = stockFor(room, main, size, supply);
        const per = Math.min(rest, Math.floor(room.caps[t]! / size));
        const times = Math.max(1, Math.min(Math.floor(rest / per), supply[t]! > 0 ? supply[t]! : rest));
        supply[t]! -= times;
        rest -= per * times;
        const bin: Bin = { stock: t, counts: [[i, per]], times };
        const left = room.caps[t]! - per * size;
        if (left >= shortest) groups.push({ bin, left });
        else closed.push(bin);
        continue;
      }
      const group = groups[at]!;
      const per = Math.min(rest, Math.floor(group.left / size));
      const times = Math.min(group.bin.times, Math.floor(rest / per));
      if (times < group.bin.times) {
        groups.push({
          bin: { ...group.bin, counts: group.bin.counts.slice(), times: group.bin.times - times },
          left: group.left,
        });
        group.bin.times = times;
      }
      group.bin.counts.push([i, per]);
      group.left -= per * size;
      rest -= per * times;
      if (group.left < shortest) {
        closed.push(group.bin);
        groups[at] = groups[groups.length - 1]!;
        groups.pop();
      }
    }
  }
  for (const g of groups) closed.push(g.bin);
  return closed;
}

/** `main` if it is long enough and at hand, else the cheapest by length that is, else the shortest long enough beyond the supply. */
function stockFor(room: Room, main: number, size: number, supply: readonly number[]): number {
  if (room.caps[main]! >= size && supply[main]! > 0) return main;
  let best = -1;
  for (let pass = 0; pass < 2 && best < 0; pass++)
    for (let t = 0; t < room.caps.length; t++) {
      if (room.caps[t]! < size || (pass === 0 && supply[t]! <= 0)) continue;
      if (best < 0 || room.costs[t]! * room.caps[best]! < room.costs[best]! * room.caps[t]!) best = t;
    }
  return best;
}

/**
 * Sequential value correction: bins are filled one after another by the knapsack at the items' present values; items that
 * end in badly filled bins become dearer for the next round. `offer` is given each packing and answers true to stop.
 */
export function valueCorrection(
  room: Room,
  rounds: number,
  nodes: number,
  budget: Budget,
  offer: (bins: Bin[]) => boolean,
): void {
  const values = room.sizes.slice();
  for (let round = 0; round < rounds && budget.left > 0; round++)
    if (offer(sequence(room, room.counts, values, nodes, budget, rounds > 1))) return;
}

/** One packing of `counts` bin by bin; corrects `values` as it goes where asked. Out of budget, the rest is fitted best. */
export function sequence(
  room: Room,
  counts: readonly number[],
  values: number[],
  nodes: number,
  budget: Budget,
  correct: boolean,
): Bin[] {
  const rest = counts.slice();
  const supply = room.supply.slice();
  const bins: Bin[] = [];
  let open = rest.reduce((a, b) => a + b, 0);
  while (open > 0) {
    let counts: number[] | null = null;
    let stock = -1;
    let worth = -1;
    const anyLeft = supply.some((s, t) => s > 0 && room.sizes.some((z, i) => rest[i]! > 0 && z <= room.caps[t]!));
    for (let t = 0; t < room.caps.length; t++) {
      if (anyLeft && supply[t]! <= 0) continue;
      const found = bestPattern(room.sizes, values, rest, room.caps[t]!, 0, Math.min(nodes, budget.left));
      budget.left -= found.steps + room.sizes.length;
      if (found.counts === null) continue;
      const each = found.value / room.costs[t]!;
      if (each > worth) {
        worth = each;
        counts = found.counts;
        stock = t;
      }
    }
    if (counts === null || budget.left <= 0) return [...bins, ...bestFit({ ...room, supply }, 0, rest)];
    let times = supply[stock]! > 0 ? supply[stock]! : Number.POSITIVE_INFINITY;
    let used = 0;
    for (let i = 0; i < counts.length; i++)
      if (counts[i]! > 0) {
        times = Math.min(times, Math.floor(rest[i]! / counts[i]!));
        used += counts[i]! * room.sizes[i]!;
      }
    supply[stock]! -= times;
    const list: [number, number][] = [];
    for (let i = 0; i < counts.length; i++) {
      const n = counts[i]!;
      if (n === 0) continue;
      list.push([i, n]);
      rest[i]! -= n * times;
      open -= n * times;
      if (correct) {
        const share = (n * times) / (n * times + rest[i]! + n * times);
        values[i] = (1 - share) * values[i]! + (share * room.sizes[i]! * room.caps[stock]!) / used;
      }
    }
    bins.push({ stock, counts: list, times });
  }
  return bins;
}
