import { expect, test } from "vitest";
import { steadyNumbers } from "../../fixtures/bases.ts";
import { cheapestFit, costOf, type Fit, residualOf, type Term } from "./cheapest-fit.ts";

/** The certificate proves the optimum: slopes of all other terms and multipliers of these cancel, each within its term. */
function expectProved(terms: Term[], fit: Fit, k: number): void {
  expect(fit.proved).toBe(true);
  const own = new Map(fit.basis.map((b) => [b.term, b.multiplier]));
  const sum = new Array<number>(k).fill(0);
  let size = 0;
  for (const [i, t] of terms.entries()) {
    const r = residualOf(t, fit.p);
    const given = own.get(i);
    if (given !== undefined) {
      expect(Math.abs(r)).toBeLessThan(1e-6);
      expect(given).toBeGreaterThanOrEqual(-t.down - 1e-6 * (1 + t.down));
      expect(given).toBeLessThanOrEqual(t.up + 1e-6 * (1 + t.up));
    }
    const slope = given ?? (r > 0 ? t.up : -t.down);
    // A term met by chance may take any slope of its own; random terms never are.
    for (let c = 0; c < k; c++) sum[c]! += slope * t.row[c]!;
    size += t.up + t.down;
  }
  for (const s of sum) expect(Math.abs(s)).toBeLessThan(1e-7 * size);
}

test("random planes: proved by multipliers, and no nearby plane is cheaper", () => {
  const next = steadyNumbers(31);
  for (let round = 0; round < 150; round++) {
    const k = 1 + (round % 4);
    const terms: Term[] = Array.from({ length: k + Math.floor(next() * 60) }, () => {
      const row = Array.from({ length: k }, (_, c) => (c === 0 ? 1 : next() * 2 - 1));
      return { row, z: next() * 30, up: next() * 5, down: next() * 5 };
    });
    const fit = cheapestFit(terms, k);
    if (!fit) continue;
    expectProved(terms, fit, k);
    for (let trial = 0; trial < 30; trial++) {
      const p = Array.from(fit.p, (v) => v + (next() - 0.5) * (trial % 3 ? 0.1 : 10));
      expect(costOf(terms, p)).toBeGreaterThanOrEqual(fit.cost - 1e-9);
    }
  }
});

test("one unknown is the weighted median; even grids with many ties end", () => {
  const heights = [3, 1, 4, 1, 5, 9, 2, 6];
  const fit = cheapestFit(
    heights.map((z) => ({ row: [1], z, up: 1, down: 3 })),
    1,
  )!;
  // Three quarters of the weight lie at or below it: the sixth of eight.
  expect(fit.p[0]).toBe(5);
  for (const size of [3, 9, 20]) {
    const terms: Term[] = [];
    for (let x = 0; x <= size; x++)
      for (let y = 0; y <= size; y++) terms.push({ row: [x / size, y / size, 1], z: 0, up: 1, down: 2 });
    terms.push({ row: [1, 0, 0], z: -10, up: 1e6, down: 0 });
    const flat = cheapestFit(terms, 3)!;
    expect(flat.proved).toBe(true);
    expect(flat.steps).toBeLessThan(200);
    expect(flat.p[0]).toBeCloseTo(-10, 6);
  }
});

test("rows that do not span the unknowns have no answer", () => {
  expect(
    cheapestFit(
      [
        { row: [1, 1], z: 0, up: 1, down: 1 },
        { row: [2, 2], z: 1, up: 1, down: 1 },
      ],
      2,
    ),
  ).toBeNull();
});
