import { expect, test } from "vitest";
import { gridLevels, steadyNumbers } from "../../fixtures/bases.ts";
import { findParts, partAt } from "./facets.ts";

test("a ridge, wherever it runs, gives two parts whose falls are right", () => {
  const next = steadyNumbers(4);
  for (let round = 0; round < 40; round++) {
    // A line through the middle region, in any direction, with its own slope either side.
    const t = next() * 2 - 1;
    const size = Math.sqrt(1 + t * t);
    const [nx, ny] = round % 2 ? [1 / size, t / size] : [t / size, 1 / size];
    const d = nx * (3000 + 2000 * next()) + ny * (1500 + 1000 * next());
    const [left, right] = [0.01 + 0.03 * next(), -0.01 - 0.03 * next()];
    const way = round % 3 === 0 ? -1 : 1;
    const z = (x: number, y: number) => {
      const across = nx * x + ny * y - d;
      return way * across * (across < 0 ? left : right) + 0.004 * (nx * y - ny * x);
    };
    const parts = findParts(gridLevels(8000, 4000, 500, z), 3)!;
    if (parts.length === 1) {
      // Too few readings on one side to make a plane: then one plane must fit well enough, or the corner is small.
      const small = gridLevels(8000, 4000, 500, z).filter(([x, y]) => nx * x + ny * y < d).length;
      expect(Math.min(small, 153 - small)).toBeLessThan(30);
      continue;
    }
    expect(parts).toHaveLength(2);
    for (const p of parts) {
      expect(p.zone.halfWidth).toBeLessThan(1e-6);
      const [x, y] = p.middle;
      const slope = nx * x + ny * y - d < 0 ? left : right;
      expect(p.plane.a).toBeCloseTo(way * slope * nx - 0.004 * ny, 9);
      expect(p.plane.b).toBeCloseTo(way * slope * ny + 0.004 * nx, 9);
    }
    expect(partAt(parts, parts[0]!.middle[0], parts[0]!.middle[1])).toBe(0);
    expect(partAt(parts, parts[1]!.middle[0], parts[1]!.middle[1])).toBe(1);
  }
});

test("noise, a bump and a plane stay one part", () => {
  const next = steadyNumbers(8);
  for (let round = 0; round < 20; round++) {
    const noisy = gridLevels(6000, 4000, 500, (x, y) => 0.02 * x - 0.01 * y + 8 * next());
    expect(findParts(noisy, 3)).toHaveLength(1);
  }
  const bump = gridLevels(6000, 4000, 500, (x, y) => -0.02 * y + (x === 3000 && y === 2000 ? 25 : 0));
  expect(findParts(bump, 3)).toHaveLength(1);
});
