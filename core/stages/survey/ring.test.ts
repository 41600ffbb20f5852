import fc from "fast-check";
import { orient2d } from "robust-predicates";
import { describe, expect, test } from "vitest";
import type { Vertex } from "../../job/job.ts";
import { crossingsOf } from "./crossings.ts";
import { readRing, whereIs } from "./ring.ts";

const HERE = { xMm: 0, yMm: 0 };
const ring = (...points: number[][]): Vertex[] => points.map(([x, y, b]) => [x!, y!, b ?? 0]);
const codes = (given: Vertex[], least = 0): string[] =>
  readRing(given, [], HERE, least).problems.map((one) => one.code);

describe("what is no simple ring is refused", () => {
  test.each([
    ["fewCorners", ring([0, 0], [1, 1])],
    ["repeatedCorner", ring([0, 0], [10, 0], [10, 0], [0, 10])],
    ["repeatedCorner", ring([0, 0], [10, 0], [0, 10], [0, 0])],
    ["spike", ring([0, 0], [10, 0], [5, 0], [5, 10])],
    ["bulgeTooGreat", ring([0, 0], [10, 0, 40], [0, 10])],
    ["ringCrosses", ring([0, 0], [10, 10], [10, 0], [0, 10])],
    ["tooWide", ring([0, 0], [2e6, 0], [0, 10])],
    // the arc of the first side swells through the opposite side
    ["ringCrosses", ring([0, 0, -0.8], [10, 0], [10, 3], [0, 3])],
  ])("%s", (code, given) => {
    expect(codes(given)).toContain(code);
  });

  test("a touch is told apart from a crossing, with its place", () => {
    const { problems } = readRing(ring([0, 0], [10, 0], [10, 10], [5, 0], [0, 10]), ["site", "outline"], HERE, 0);
    expect(problems[0]).toMatchObject({ code: "ringCrosses", data: { how: "touches", x: 5, y: 0 } });
  });

  test("small areas are refused where an outline is meant", () => {
    expect(codes(ring([0, 0], [10, 0], [10, 10]), 10_000)).toEqual(["noArea"]);
    expect(codes(ring([0, 0], [0.0004, 0], [0, 5]), 0)).toContain("repeatedCorner");
  });

  test("two arcs make a circle", () => {
    const { flat } = readRing(ring([0, 0, 1], [2000, 0, 1]), [], HERE, 0);
    // radius 1 m: pi m2, less what chords within 0.2 mm cut off
    expect(flat!.areaUm2 / 1e12).toBeGreaterThan(Math.PI - 0.001);
    expect(flat!.areaUm2 / 1e12).toBeLessThan(Math.PI);
  });
});

test("a hair's breadth is judged rightly, far from the origin too", () => {
  // one micrometre to either side of the slanting line
  const far = 5e9;
  for (const [dy, inside] of [
    [0.002, false],
    [-0.002, true],
  ] as const) {
    const given = ring([far, far], [far + 30_000, far], [far + 30_000, far + 10_000]);
    const { flat } = readRing(given, [], { xMm: far, yMm: far }, 0);
    expect(whereIs(flat!, 15_000_000, Math.round((5000 + dy) * 1000)) === 1).toBe(inside);
  }
  const { flat } = readRing(ring([0, 0], [30_000, 0], [30_000, 10_000]), [], HERE, 0);
  expect(whereIs(flat!, 3_000_000, 1_000_000)).toBe(0);
});

test("crossings are those a test of every pair finds", () => {
  const meet = (p: number[], q: number[], r: number[], s: number[]): boolean => {
    const side = (a: number[], b: number[], c: number[]) =>
      Math.sign(orient2d(a[0]!, a[1]!, b[0]!, b[1]!, c[0]!, c[1]!));
    const [a, b, c, d] = [side(p, q, r), side(p, q, s), side(r, s, p), side(r, s, q)];
    if (a * b < 0 && c * d < 0) return true;
    const on = (t: number[], u: number[], v: number[]) =>
      side(t, u, v) === 0 && (v[0]! - t[0]!) * (v[0]! - u[0]!) <= 0 && (v[1]! - t[1]!) * (v[1]! - u[1]!) <= 0;
    return on(p, q, r) || on(p, q, s) || on(r, s, p) || on(r, s, q);
  };
  let hits = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(8, 40, 1000),
      fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 3, maxLength: 60 }),
      fc.boolean(),
      (size, given, small) => {
        const points = given.map(([x, y]) => [x % size, y % (small ? 4 : size)]);
        const n = points.length;
        const slow: string[] = [];
        for (let i = 0; i < n; i++) {
          for (let j = i + 2; j < n; j++) {
            if (i === 0 && j === n - 1) continue;
            if (meet(points[i]!, points[(i + 1) % n]!, points[j]!, points[(j + 1) % n]!)) slow.push(`${i},${j}`);
          }
        }
        const fast = crossingsOf(
          { xsUm: Float64Array.from(points, (p) => p[0]!), ysUm: Float64Array.from(points, (p) => p[1]!) },
          1e6,
        );
        hits += fast.length;
        expect(fast.map((hit) => `${hit.a},${hit.b}`)).toEqual(slow);
      },
    ),
    { seed: 31, numRuns: 1500 },
  );
  expect(hits).toBeGreaterThan(1000);
});

test("ten thousand corners are judged quickly, even as a comb", () => {
  const comb: Vertex[] = [];
  for (let i = 0; i < 2500; i++) {
    const x = i * 40;
    comb.push([x, 0, 0], [x, 90_000, 0], [x + 20, 90_000, 0], [x + 20, 0, 0]);
  }
  comb.push([comb.length * 10, -100, 0], [0, -100, 0]);
  const wave = Array.from({ length: 10_000 }, (_, i): Vertex => {
    const t = (i / 10_000) * 2 * Math.PI;
    const r = 40_000 + 500 * Math.sin(90 * t);
    return [r * Math.cos(t), r * Math.sin(t), 0];
  });
  for (const given of [comb, wave]) {
    const start = performance.now();
    expect(codes(given)).toEqual([]);
    const ms = performance.now() - start;
    console.log(`${given.length} corners judged in ${ms.toFixed(0)} ms`);
    expect(ms).toBeLessThan(10_000);
  }
});
