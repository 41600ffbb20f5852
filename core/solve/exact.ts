import type { Bin, Budget, Room } from "./bins.ts";

/**
 * The cheapest packing of few items, below `above`, or null: depth first over maximal fillings that hold the longest item
 * left, cut off by the material bound; rests already reached as cheaply are not searched again. Exact where it ends within
 * the budget, else the best found so far.
 */
export function exactPacking(room: Room, counts: readonly number[], above: number, budget: Budget): Bin[] | null {
  const kinds = room.sizes.map((_, i) => i).filter((i) => counts[i]! > 0);
  kinds.sort((a, b) => room.sizes[b]! - room.sizes[a]! || a - b);
  const sizes = kinds.map((i) => room.sizes[i]!);
  const rest = kinds.map((i) => counts[i]!);
  const rate = Math.min(...room.caps.map((cap, t) => room.costs[t]! / cap));
  const reached = new Map<string, number>();
  const now: { stock: number; counts: number[] }[] = [];
  let best = above - 1e-9 * above;
  let found: Bin[] | null = null;

  const search = (cost: number): void => {
    const first = rest.findIndex((n) => n > 0);
    if (first < 0) {
      best = cost - 1e-9 * cost;
      found = now.map((bin) => asBin(kinds, bin));
      return;
    }
    let left = 0;
    for (let i = first; i < rest.length; i++) left += rest[i]! * sizes[i]!;
    if (cost + rate * left >= best) return;
    const key = rest.join(",");
    const before = reached.get(key);
    if (before !== undefined && before <= cost) return;
    reached.set(key, cost);
    for (let t = 0; t < room.caps.length; t++) {
      if (sizes[first]! > room.caps[t]! || cost + room.costs[t]! >= best) continue;
      const taken = new Array<number>(sizes.length).fill(0);
      taken[first] = 1;
      rest[first]!--;
      fill(first, room.caps[t]! - sizes[first]!, t, taken, cost + room.costs[t]!);
      rest[first]!++;
    }
  };
  // Takes as many of item i as chosen, most first; a filling counts only where nothing more of what is left goes in.
  const fill = (i: number, space: number, t: number, taken: number[], cost: number): void => {
    if (--budget.left < 0) return;
    if (i === sizes.length) {
      for (let j = 0; j < sizes.length; j++) if (rest[j]! > 0 && sizes[j]! <= space) return;
      now.push({ stock: t, counts: taken.slice() });
      search(cost);
      now.pop();
      return;
    }
    const most = Math.min(rest[i]!, Math.floor(space / sizes[i]!));
    for (let n = most; n >= 0; n--) {
      taken[i]! += n;
      rest[i]! -= n;
      fill(i + 1, space - n * sizes[i]!, t, taken, cost);
      taken[i]! -= n;
      rest[i]! += n;
    }
  };
  search(0);
  return found;
}

function asBin(kinds: readonly number[], bin: { stock: number; counts: readonly number[] }): Bin {
  const counts: [number, number][] = [];
  bin.counts.forEach((n, i) => {
    if (n > 0) counts.push([kinds[i]!, n]);
  });
  return { stock: bin.stock, counts, times: 1 };
}
