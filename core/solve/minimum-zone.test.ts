import { expect, test } from "vitest";
import { gridLevels, steadyNumbers } from "../../fixtures/bases.ts";
import { minimumZone, type Zone } from "./minimum-zone.ts";

type P = [number, number, number];

/** No point lies outside the zone, and the certificate's points say that no plane does better. */
function expectProved(points: readonly P[], zone: Zone): void {
  for (const [x, y, z] of points)
    expect(Math.abs(z - zone.a * x - zone.b * y - zone.c)).toBeLessThanOrEqual(zone.halfWidth + 1e-6);
  expect(zone.certificate.length).toBeLessThanOrEqual(4);
  let [one, x, y, z, size] = [0, 0, 0, 0, 0];
  for (const { index, weight } of zone.certificate) {
    one += weight;
    x += weight * (points[index]![0] - points[0]![0]);
    y += weight * (points[index]![1] - points[0]![1]);
    z += weight * points[index]![2];
    size += Math.abs(weight);
  }
  if (zone.halfWidth < 1e-9) return;
  expect(size).toBeCloseTo(1, 9);
  expect(one).toBeCloseTo(0, 9);
  expect(x).toBeCloseTo(0, 5);
  expect(y).toBeCloseTo(0, 5);
  expect(z).toBeCloseTo(zone.halfWidth, 7);
}

/** The slow way: every four points have a least half width of their own; the greatest of them is the whole's. */
function slowHalfWidth(points: readonly P[]): number {
  let best = 0;
  const n = points.length;
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++)
      for (let k = j + 1; k < n; k++)
        for (let l = k + 1; l < n; l++)
          best = Math.max(best, fourPoints([points[i]!, points[j]!, points[k]!, points[l]!]));
  return best;
}

/** Weights that sum to nothing with 1, x and y are signed areas of the opposite triangles. */
function fourPoints(p: P[]): number {
  const area = (a: P, b: P, c: P) => (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
  const w = [
    area(p[1]!, p[2]!, p[3]!),
    -area(p[0]!, p[2]!, p[3]!),
    area(p[0]!, p[1]!, p[3]!),
    -area(p[0]!, p[1]!, p[2]!),
  ];
  let sum = 0;
  let size = 0;
  for (let i = 0; i < 4; i++) {
    sum += w[i]! * p[i]![2];
    size += Math.abs(w[i]!);
  }
  return size === 0 ? 0 : Math.abs(sum) / size;
}

test("small random sets: the half width found by looking at every four points", () => {
  const next = steadyNumbers(1);
  for (let round = 0; round < 200; round++) {
    const points = Array.from({ length: 4 + (round % 9) }, (): P => [next() * 8000, next() * 5000, next() * 20]);
    const zone = minimumZone(points)!;
    expectProved(points, zone);
    expect(zone.halfWidth).toBeCloseTo(slowHalfWidth(points), 7);
  }
});

test("grids, where many points stand in line, and whole millimetres, where many tie", () => {
  const next = steadyNumbers(2);
  for (let round = 0; round < 60; round++) {
    const points = gridLevels(
      1000 * (1 + (round % 7)),
      3000,
      500,
      (x, y) => 0.02 * x - 0.01 * y + Math.round(next() * 4),
    );
    expectProved(points, minimumZone(points)!);
  }
});

test("a plane has no width; a ridge has half its rise; too little has no answer", () => {
  expect(minimumZone(gridLevels(3000, 3000, 500, (x, y) => 0.013 * x + 0.02 * y))!.halfWidth).toBeLessThan(1e-9);
  const ridge = gridLevels(8000, 4000, 500, (x) => -0.02 * Math.abs(x - 4000));
  const zone = minimumZone(ridge)!;
  expectProved(ridge, zone);
  expect(zone.halfWidth).toBeCloseTo(40, 9);
  expect(
    minimumZone([
      [0, 0, 1],
      [1, 1, 2],
    ]),
  ).toBeNull();
  expect(
    minimumZone([
      [0, 0, 1],
      [100, 100, 2],
      [300, 300, 0],
    ]),
  ).toBeNull();
});

test("the answer does not hang on the order of the points", () => {
  const next = steadyNumbers(6);
  const points = Array.from({ length: 300 }, (): P => [next() * 8000, next() * 5000, next() * 20]);
  const zone = minimumZone(points)!;
  const back = minimumZone([...points].reverse())!;
  expect(back.halfWidth).toBeCloseTo(zone.halfWidth, 9);
  expect(zone.steps).toBeLessThan(60);
});
