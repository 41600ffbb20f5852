import { expect, test } from "vitest";
import { fitPlane } from "../core/geometry/plane.ts";
import { cheapestFit, type Term } from "../core/solve/cheapest-fit.ts";
import { minimumZone } from "../core/solve/minimum-zone.ts";
import { steadyNumbers } from "../fixtures/bases.ts";
import { cheapestBySolver, halfWidthBySolver, planeByMatrix } from "./second-opinion.ts";
import { surfaceProofs } from "./surface.ts";

for (const p of surfaceProofs)
  test(`${p.id}: ${p.claim}`, () => {
    expect(Number.isFinite(p.ours) && Number.isFinite(p.published)).toBe(true);
    expect(Math.abs(p.ours - p.published)).toBeLessThanOrEqual(p.allowed);
  });

test("random surfaces: three questions, two answers each, the same", () => {
  const next = steadyNumbers(13);
  for (let round = 0; round < 40; round++) {
    const points = Array.from({ length: 5 + 3 * round }, (): [number, number, number] => [
      Math.round(next() * 8000),
      Math.round(next() * 5000),
      Math.round(next() * 200) / 10,
    ]);
    const ours = fitPlane(points)!;
    const theirs = planeByMatrix(points);
    expect(Math.abs(ours.a - theirs.a) + Math.abs(ours.b - theirs.b)).toBeLessThan(1e-9);
    expect(minimumZone(points)!.halfWidth).toBeCloseTo(halfWidthBySolver(points), 5);
    const terms = points.map(
      ([x, y, z]): Term => ({ row: [x / 1000, y / 1000, 1], z, up: 1 + next(), down: 2 + next() }),
    );
    for (const [x, y, z] of points) terms.push({ row: [x / 1000, y / 1000, 1], z: z - 15, up: 0, down: 1e4 });
    if (round % 2) terms.push({ row: [1, 0, 0], z: -20, up: 1e4, down: 0 });
    const fit = cheapestFit(terms, 3)!;
    expect(fit.proved).toBe(true);
    expect(Math.abs(fit.cost - cheapestBySolver(terms, 3))).toBeLessThan(1e-4 * Math.max(1, fit.cost));
  }
});
