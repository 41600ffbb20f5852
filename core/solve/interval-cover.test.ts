import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Cell, type CoverProblem, coverByLayers, coverLine } from "./interval-cover.ts";
import { greedyPoints } from "./interval-greedy.ts";
import { bothOf, freeOf, type Interval, joinIntervals, mostPoints } from "./intervals.ts";

const middle = (lo: number, hi: number): number => Math.floor((lo + hi) / 2);
const parts = fc.array(
  fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 15 })).map(([lo, l]) => ({ lo, hi: lo + l })),
  { maxLength: 8 },
);
const inside = (set: readonly Interval[], x: number): boolean => set.some((p) => x >= p.lo && x <= p.hi);

describe("interval sets", () => {
  it("join, cut out and intersect like sets of numbers", () => {
    fc.assert(
      fc.property(parts, parts, (p, q) => {
        const one = joinIntervals(p);
        const other = joinIntervals(q);
        const free = freeOf(5, 70, one);
        const both = bothOf(one, other);
        for (let x = 0; x <= 80; x++) {
          expect(inside(one, x)).toBe(inside(p, x));
          expect(inside(free, x)).toBe(x >= 5 && x <= 70 && !inside(p, x));
          expect(inside(both, x)).toBe(inside(p, x) && inside(q, x));
        }
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it("count the most points that fit", () => {
    expect(mostPoints([{ lo: 0, hi: 10 }], 5, 9)).toBe(3);
    expect(
      mostPoints(
        [
          { lo: 0, hi: 4 },
          { lo: 6, hi: 9 },
        ],
        5,
        9,
      ),
    ).toBe(2);
    expect(mostPoints([{ lo: 0, hi: 100 }], 5, 4)).toBe(4);
    expect(mostPoints([], 5, 4)).toBe(0);
  });
});

/** One run from 0 to `end` that opens and closes within `reach`, on the free places given. */
function oneRun(free: readonly Interval[], end: number, reach: number, most: number, least: number): CoverProblem {
  const cells: Cell[] = [];
  const none = { n: 0, k: 0 as const, open0: false, close0: false, open1: false, close1: false };
  for (const part of free) {
    for (let x = part.lo; x <= part.hi; x++) {
      const hold = { n: 0, k: 1 as const, open0: x <= reach, close0: x >= end - reach, open1: false, close1: false };
      cells.push({ lo: x, hi: x, holds: [hold, none] });
    }
  }
  return { cells, needs: [[1], []], windows: [], least, most };
}

describe("coverLine", () => {
  it("needs one point where one serves both ends, and steps as far as allowed between", () => {
    const all = [{ lo: 0, hi: 100 }];
    expect(coverLine(oneRun([{ lo: 0, hi: 20 }], 20, 10, 30, 5), middle).points!.length).toBe(1);
    expect(coverLine(oneRun(all, 100, 10, 30, 5), middle).points!.length).toBe(4);
    expect(coverLine(oneRun(all, 100, 10, 27, 5), middle).points!.length).toBe(4);
    expect(coverLine(oneRun(all, 100, 10, 26, 5), middle).points!.length).toBe(5);
  });

  it("says what stops it", () => {
    const gap = [
      { lo: 0, hi: 30 },
      { lo: 62, hi: 100 },
    ];
    expect(coverLine(oneRun(gap, 100, 10, 31, 5), middle).blocked?.reason).toBe("space");
    expect(coverLine(oneRun([{ lo: 0, hi: 80 }], 100, 10, 31, 5), middle).blocked?.reason).toBe("close");
    expect(coverLine(oneRun([{ lo: 20, hi: 100 }], 100, 10, 31, 5), middle).blocked?.reason).toBe("open");
  });

  it("takes as many points by the quick way as by the exact search", () => {
    let quick = 0;
    fc.assert(
      fc.property(parts, fc.integer({ min: 8, max: 40 }), (barred, most) => {
        const problem = oneRun(freeOf(0, 80, joinIntervals(barred)), 80, 8, most, 3);
        const exact = coverByLayers(problem, middle);
        const found = coverLine(problem, middle);
        expect(found.points?.length).toBe(exact.points?.length);
        if (greedyPoints(problem)) quick++;
      }),
      { seed: 11, numRuns: 500 },
    );
    expect(quick).toBeGreaterThan(100);
  });
});

describe("a cover that cannot be", () => {
  it("names what bars its end where every further place was seen before", () => {
    const hold = { n: 0, k: 1 as const, open0: true, close0: false, open1: false, close1: false };
    const cells: Cell[] = [{ lo: 0, hi: 243_928, holds: [hold, hold] }];
    const { points, blocked } = coverLine(
      { cells, needs: [[0], [2]], windows: [], least: 120_000, most: 620_000 },
      middle,
    );
    expect(points).toBeNull();
    expect(blocked).toEqual({ reason: "close", track: 1, index: 0, at: 243_928 });
  });
});
