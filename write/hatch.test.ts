import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Pt } from "../papers/sheet.ts";
import { hatchLines } from "./hatch.ts";

const square: Pt[] = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];

describe("hatchLines", () => {
  it("covers area / spacing metres of line, holes left out", () => {
    const hole: Pt[] = [
      [3, 3],
      [7, 3],
      [7, 7],
      [3, 7],
    ];
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 359 }), (deg) => {
        const total = hatchLines([square, hole], deg, 0.01).reduce(
          (sum, [a, b]) => sum + Math.hypot(b[0] - a[0], b[1] - a[1]),
          0,
        );
        expect(total * 0.01).toBeGreaterThan(83);
        expect(total * 0.01).toBeLessThan(85);
      }),
      { seed: 7, numRuns: 40 },
    );
  });

  it("stays inside, and gives nothing for nothing", () => {
    for (const [a, b] of hatchLines([square], 33, 0.7))
      for (const [x, y] of [a, b]) {
        expect(Math.min(x, y)).toBeGreaterThan(-1e-9);
        expect(Math.max(x, y)).toBeLessThan(10 + 1e-9);
      }
    expect(hatchLines([], 45, 1)).toEqual([]);
    expect(hatchLines([square], 45, 0)).toEqual([]);
  });

  it("keeps to 4000 lines on any area", () => {
    expect(
      hatchLines(
        [
          [
            [0, 0],
            [1e6, 0],
            [1e6, 1e6],
            [0, 1e6],
          ],
        ],
        0,
        1,
      ).length,
    ).toBeLessThanOrEqual(4001);
  });
});
