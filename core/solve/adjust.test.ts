import fc from "fast-check";
import { inverse, Matrix } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { adjustDistances } from "./adjust.ts";
import { bodyOf, freePoints, stretch, tieUp } from "./rigid.ts";

const coordinate = fc.integer({ min: 0, max: 10_000 });
const points = (n: number) => fc.array(fc.tuple(coordinate, coordinate), { minLength: n, maxLength: n });
const away = ([x, y]: readonly number[], [u, v]: readonly number[]) => Math.sqrt((x! - u!) ** 2 + (y! - v!) ** 2);

/** All pairs of five points with the first two given: redundant, so that noise shows. */
function network(where: [number, number][], noise: number[]) {
  const names = where.map((_, i) => `P${i}`);
  const obs: [string, string, number][] = [];
  for (let i = 0; i < where.length; i++) {
    for (let j = i + 1; j < where.length; j++)
      obs.push([names[i]!, names[j]!, away(where[i]!, where[j]!) + (noise[obs.length] ?? 0)]);
  }
  const fixed = { P0: where[0]!, P1: where[1]! };
  const approx = Object.fromEntries(where.slice(2).map(([x, y], i) => [names[i + 2]!, [x + 20, y - 15] as const]));
  return { fixed, approx, obs: obs.slice(1), sd: 2 };
}
const spread = (where: number[][]): boolean => where.every((p, i) => where.every((q, j) => i >= j || away(p, q) > 500));

describe("adjusted distances", () => {
  test("without noise the points come back", () => {
    fc.assert(
      fc.property(points(5), (where) => {
        fc.pre(spread(where));
        const result = adjustDistances(network(where as [number, number][], []));
        if (!result.ok) return;
        // five points in or near one line are not held across it
        fc.pre(Object.values(result.points).every((p) => p.sigmaX < 1 && p.sigmaY < 1) && result.vtpv < 1e-9);
        for (const [i, p] of where.entries())
          expect(away(p, [result.points[`P${i}`]!.x, result.points[`P${i}`]!.y])).toBeLessThan(0.01);
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  test("residuals, deviations and redundancies are those of the normal equations by another library", () => {
    let judged = 0;
    fc.assert(
      fc.property(
        points(5),
        fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 10, maxLength: 10 }),
        (where, noise) => {
          fc.pre(spread(where));
          const net = network(where as [number, number][], noise);
          const result = adjustDistances(net);
          if (!result.ok || Object.values(result.points).some((p) => p.sigmaX > 20 || p.sigmaY > 20)) return;
          judged++;
          const names = Object.keys(net.approx);
          const a = Matrix.zeros(net.obs.length, names.length * 2);
          net.obs.forEach(([from, to], k) => {
            const [p, q] = [result.points[from]!, result.points[to]!];
            const d = away([p.x, p.y], [q.x, q.y]);
            for (const [name, sign] of [
              [from, -1],
              [to, 1],
            ] as const) {
              const i = names.indexOf(name);
              if (i < 0) continue;
              a.set(k, 2 * i, (sign * (q.x - p.x)) / d);
              a.set(k, 2 * i + 1, (sign * (q.y - p.y)) / d);
            }
          });
          const weighted = a.transpose().mmul(a).div(4);
          const q = inverse(weighted);
          const v = Matrix.columnVector(result.obs.map((one) => one.residual));
          // at the least sum the residuals stand square on the design
          expect(a.transpose().mmul(v).abs().max()).toBeLessThan(1e-4);
          const hat = a.mmul(q).mmul(a.transpose()).div(4);
          for (const [k, one] of result.obs.entries()) expect(one.redundancy).toBeCloseTo(1 - hat.get(k, k), 6);
          expect(result.obs.reduce((sum, one) => sum + one.redundancy, 0)).toBeCloseTo(result.dof, 6);
          const s0 = Math.sqrt((v.transpose().mmul(v).get(0, 0) as number) / 4 / result.dof);
          expect(result.s0).toBeCloseTo(s0, 6);
          for (const [i, name] of names.entries())
            expect(result.points[name]!.sigmaX).toBeCloseTo(s0 * Math.sqrt(q.get(2 * i, 2 * i)), 5);
        },
      ),
      { seed: 18, numRuns: 150 },
    );
    expect(judged).toBeGreaterThan(50);
  });

  test("what nothing holds is named", () => {
    const fixed = { A: [0, 0], B: [1000, 0] } as const;
    const result = adjustDistances({
      fixed,
      approx: { C: [500, 500], D: [0, 900] },
      obs: [
        ["A", "C", 700],
        ["B", "C", 700],
        ["A", "D", 900],
      ],
      sd: 2,
    });
    expect(result).toMatchObject({ ok: false, loose: "D" });
  });
});

describe("what ties hold", () => {
  test("a triangle is held, a square is not until its diagonal is tied", () => {
    const free = freePoints(4);
    for (const [a, b] of [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 0],
    ] as const)
      expect(tieUp(free, a, b)).toBe(true);
    expect(free.motions).toHaveLength(4);
    expect(stretch(free, 0, 2).some((rate) => Math.abs(rate) > 1e-6)).toBe(true);
    expect(tieUp(free, 0, 2)).toBe(true);
    expect(free.motions).toHaveLength(3);
    expect(tieUp(free, 1, 3)).toBe(false);
    expect(bodyOf(free, 0, 1)).toEqual([0, 1, 2, 3]);
  });

  test("two trusses sharing one point turn about it", () => {
    const free = freePoints(5);
    for (const [a, b] of [
      [0, 1],
      [1, 2],
      [2, 0],
      [2, 3],
      [3, 4],
      [4, 2],
    ] as const)
      tieUp(free, a, b);
    expect(bodyOf(free, 0, 1)).toEqual([0, 1, 2]);
    expect(free.motions).toHaveLength(4);
  });

  test("counts as Laman's condition does: n points need 2n - 3 ties, well spread", () => {
    // K(3,3): nine ties on six points, no triangle, held at a general place
    const free = freePoints(6);
    for (const a of [0, 2, 4]) for (const b of [1, 3, 5]) tieUp(free, a, b);
    expect(free.motions).toHaveLength(3);
  });
});
