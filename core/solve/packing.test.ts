import type { Highs } from "highs";
import * as highsModule from "highs";
import { beforeAll, describe, expect, test } from "vitest";
import { chance } from "../../bench/cutting-terraces.ts";
import type { Item, Packing, Stock } from "./bins.ts";
import { type Column, coverByColumns } from "./columns.ts";
import { boundByFunctions } from "./dff.ts";
import { bestPattern } from "./knapsack.ts";
import { packLengths } from "./packing.ts";

/** Every filling of one length, as counts. */
function allPatterns(sizes: readonly number[], counts: readonly number[], capacity: number): number[][] {
  const out: number[][] = [];
  const go = (i: number, room: number, now: number[]): void => {
    if (i === sizes.length) {
      if (now.some((n) => n > 0)) out.push(now);
      return;
    }
    for (let n = 0; n <= counts[i]! && n * sizes[i]! <= room; n++) go(i + 1, room - n * sizes[i]!, [...now, n]);
  };
  go(0, capacity, []);
  return out;
}

/** Least cost by trying every way: depth first over patterns that hold the first item left. */
function leastCost(stocks: readonly Stock[], items: readonly Item[], kerf: number): number {
  const sizes = items.map((i) => i.length + kerf);
  const memo = new Map<string, number>();
  const solve = (rest: number[]): number => {
    const first = rest.findIndex((n) => n > 0);
    if (first < 0) return 0;
    const key = rest.join(",");
    const known = memo.get(key);
    if (known !== undefined) return known;
    let best = Number.POSITIVE_INFINITY;
    for (const stock of stocks)
      for (const pattern of allPatterns(sizes, rest, stock.length + kerf)) {
        if (pattern[first] === 0) continue;
        best = Math.min(best, stock.cost + solve(rest.map((n, i) => n - pattern[i]!)));
      }
    memo.set(key, best);
    return best;
  };
  return solve(items.map((i) => i.count));
}

function checkPacking(stocks: readonly Stock[], items: readonly Item[], kerf: number, packing: Packing): void {
  const cut = items.map(() => 0);
  let cost = 0;
  for (const bin of packing.bins) {
    let used = -kerf;
    for (const [item, n] of bin.counts) {
      cut[item]! += n * bin.times;
      used += n * (items[item]!.length + kerf);
    }
    expect(used).toBeLessThanOrEqual(stocks[bin.stock]!.length);
    cost += bin.times * stocks[bin.stock]!.cost;
  }
  expect(cut).toEqual(items.map((i) => i.count));
  expect(packing.cost).toBeCloseTo(cost, 6);
}

describe("packing lengths", () => {
  test("least cost on small instances, one and two stock lengths, by trying every way", () => {
    let tried = 0;
    let above = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const roll = chance(seed);
      const kerf = roll(3);
      const stocks: Stock[] = [{ length: 100, cost: 100, supply: null }];
      if (roll(2) === 1) stocks.push({ length: 60 + roll(30), cost: 62 + roll(25), supply: null });
      const kinds = new Set<number>();
      while (kinds.size < 3 + roll(3)) kinds.add(12 + roll(70));
      const items = [...kinds].map((length) => ({ length, count: 1 + roll(3) }));
      const packing = packLengths(stocks, items, kerf);
      checkPacking(stocks, items, kerf, packing);
      tried++;
      if (packing.cost > leastCost(stocks, items, kerf) + 1e-9) above++;
    }
    expect(tried).toBe(200);
    expect(above).toBe(0);
  });

  test("stock at hand is kept to, and what lies beyond it counted", () => {
    const items = [{ length: 40, count: 10 }];
    const scarce = packLengths(
      [
        { length: 80, cost: 1, supply: 2 },
        { length: 45, cost: 5, supply: null },
      ],
      items,
      0,
    );
    checkPacking(
      [
        { length: 80, cost: 1, supply: 2 },
        { length: 45, cost: 5, supply: null },
      ],
      items,
      0,
      scarce,
    );
    expect([scarce.cost, scarce.missing]).toEqual([2 + 6 * 5, 0]);
    expect(packLengths([{ length: 80, cost: 1, supply: 2 }], items, 0).missing).toBe(3);
  });

  test("a kerf is lost between neighbours only", () => {
    const one: Stock[] = [{ length: 100, cost: 1, supply: null }];
    expect(packLengths(one, [{ length: 100, count: 3 }], 3).cost).toBe(3);
    expect(packLengths(one, [{ length: 50, count: 2 }], 3).cost).toBe(2);
    expect(packLengths(one, [{ length: 48, count: 2 }], 4).cost).toBe(1);
  });

  test("what is left lies in one long end", () => {
    const packing = packLengths([{ length: 1000, cost: 1, supply: null }], [{ length: 300, count: 4 }], 0);
    const rests = packing.bins.flatMap((b) =>
      new Array<number>(b.times).fill(1000 - b.counts.reduce((n, [, k]) => n + k * 300, 0)),
    );
    expect(rests.sort((a, b) => a - b)).toEqual([100, 700]);
  });

  test("dual-feasible functions never price a filling above their scale", () => {
    for (let seed = 1; seed <= 150; seed++) {
      const roll = chance(seed);
      const sizes = Array.from({ length: 5 }, () => 8 + roll(80));
      const counts = sizes.map(() => 1 + roll(6));
      const bound = boundByFunctions(100, sizes, counts);
      for (const pattern of allPatterns(
        sizes,
        sizes.map(() => 12),
        100,
      ))
        expect(pattern.reduce((n, k, i) => n + k * bound.duals[i]!, 0)).toBeLessThanOrEqual(bound.scale);
    }
  });

  test("the knapsack finds what trying every filling finds", () => {
    for (let seed = 1; seed <= 200; seed++) {
      const roll = chance(seed);
      const sizes = Array.from({ length: 5 }, () => 7 + roll(60));
      const values = sizes.map(() => roll(50) - 5);
      const limits = sizes.map(() => roll(4));
      const found = bestPattern(sizes, values, limits, 120);
      const worth = (p: readonly number[]): number => p.reduce((n, k, i) => n + k * values[i]!, 0);
      expect(found.value).toBe(Math.max(0, ...allPatterns(sizes, limits, 120).map(worth)));
      expect(found.upper).toBe(found.value);
      if (found.counts !== null) expect(worth(found.counts)).toBe(found.value);
    }
  });
});

describe("column generation against another solver", () => {
  let highs: Highs;
  beforeAll(async () => {
    highs = await (highsModule.default as unknown as () => Promise<Highs>)();
  });

  test("same value as HiGHS over all patterns", () => {
    let worst = 0;
    for (let seed = 1; seed <= 25; seed++) {
      const roll = chance(seed);
      const sizes = [...new Set(Array.from({ length: 6 }, () => 150 + roll(500)))];
      const demand = sizes.map(() => 1 + roll(40));
      const most = sizes.map((s) => Math.floor(1000 / s));
      const start = sizes.map(
        (_, i): Column => ({ cost: 1, counts: sizes.map((_s, j) => (i === j ? most[i]! : 0)), tag: 0 }),
      );
      const price = (duals: readonly number[]): Column | null => {
        const found = bestPattern(sizes, duals, most, 1000, 1 + 1e-9);
        return found.counts === null ? null : { cost: 1, counts: found.counts, tag: 0 };
      };
      const ours = coverByColumns(demand, start, price, 1_000);
      expect(ours.finished).toBe(true);
      const patterns = allPatterns(sizes, most, 1000);
      const rows = sizes.map(
        (_, i) => `r${i}: ${patterns.map((p, k) => (p[i]! > 0 ? `+ ${p[i]} x${k}` : "")).join(" ")} >= ${demand[i]}`,
      );
      const text = `Minimize\nobj: ${patterns.map((_, k) => `x${k}`).join(" + ")}\nSubject To\n${rows.join("\n")}\nEnd`;
      const theirs = highs.solve(text);
      expect(theirs.Status).toBe("Optimal");
      worst = Math.max(worst, Math.abs(ours.value - theirs.ObjectiveValue));
    }
    expect(worst).toBeLessThan(1e-6);
  });
});
