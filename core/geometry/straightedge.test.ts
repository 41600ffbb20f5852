import { expect, test } from "vitest";
import { baseSurvey, gridLevels, rectangle, steadyNumbers } from "../../fixtures/bases.ts";
import { type BaseMesh, meshBase } from "./base-mesh.ts";
import { largestGap } from "./profile.ts";
import { searchStraightedge } from "./straightedge.ts";

/** The slow way: slide the bar in small steps, lay the upper hull of what is under it, measure under each of its spans. */
function slowGap(s: number[], z: number[], length: number, step: number): number {
  const at = (t: number) => {
    let i = 0;
    while (i + 2 < s.length && s[i + 1]! < t) i++;
    return z[i]! + ((z[i + 1]! - z[i]!) * (t - s[i]!)) / (s[i + 1]! - s[i]!);
  };
  let best = 0;
  const end = s.at(-1)!;
  for (let a = s[0]!; a < end; a += step) {
    const b = Math.min(end, a + length);
    const under: [number, number][] = [[a, at(a)]];
    for (let i = 0; i < s.length; i++) if (s[i]! > a && s[i]! < b) under.push([s[i]!, z[i]!]);
    under.push([b, at(b)]);
    const hull: [number, number][] = [];
    for (const p of under) {
      while (hull.length > 1) {
        const [o, q] = [hull.at(-2)!, hull.at(-1)!];
        if ((q[0] - o[0]) * (p[1] - o[1]) - (p[0] - o[0]) * (q[1] - o[1]) < 0) break;
        hull.pop();
      }
      hull.push(p);
    }
    let k = 0;
    for (const [t, h] of under) {
      while (hull[k + 1]![0] < t) k++;
      const [p, q] = [hull[k]!, hull[k + 1]!];
      best = Math.max(best, p[1] + ((q[1] - p[1]) * (t - p[0])) / (q[0] - p[0]) - h);
    }
  }
  return best;
}

test("closed forms on a profile: a valley, a ridge, a kerb's foot, a bar that stands free", () => {
  // A valley with slopes m either side: the bar lies evenly over it, the gap is m L / 2.
  expect(largestGap([-5000, 0, 5000], [100, 0, 100], 3, 2000)!.gap).toBeCloseTo(20, 9);
  expect(largestGap([-5000, 0, 5000], [100, 0, 50], 3, 2000)!.gap).toBeCloseTo(sliding(0.02, 0.01), 9);
  // A ridge: the bar rocks on it, and under a rocking bar there is no gap between supports.
  expect(largestGap([-5000, 0, 5000], [-100, 0, -100], 3, 2000)).toBeNull();
  // A step down of 8: the bar lies on the edge and on the ground, never beyond both.
  expect(largestGap([0, 1000, 1001, 3000], [8, 8, 0, 0], 4, 2000)!.gap).toBeGreaterThan(7.9);
  // A bar over the end of the base stands free there.
  expect(largestGap([0, 500, 1000], [0, 5, 0], 3, 2000)).toBeNull();
});

/** Bar of 2000 over a valley of slopes p and q: greatest over positions x of (p x)(1 - x/L) + q (L - x) x / L. */
function sliding(p: number, q: number): number {
  let best = 0;
  for (let x = 0; x <= 2000; x++) best = Math.max(best, p * x * (1 - x / 2000) + (q * (2000 - x) * x) / 2000);
  return best;
}

test("random profiles: never below the slow way, and above it by no more than its step misses", () => {
  const next = steadyNumbers(7);
  for (let round = 0; round < 300; round++) {
    const s = [0];
    const z = [next() * 10];
    const n = 3 + Math.floor(next() * 20);
    for (let i = 1; i < n; i++) {
      s.push(s[i - 1]! + 20 + next() * 600);
      z.push(next() * 10);
    }
    const length = 300 + next() * 2500;
    const ours = largestGap(s, z, n, length)?.gap ?? 0;
    const slow = slowGap(s, z, length, 2);
    expect(ours).toBeGreaterThanOrEqual(slow - 1e-9);
    expect(ours - slow).toBeLessThan(1.5);
  }
});

const mesh = (levels: [number, number, number][], w: number, h: number): BaseMesh => {
  const survey = baseSurvey(rectangle(w, h), levels);
  return meshBase(survey, survey.levels)!;
};

test("a plane and a ridge have no gap; a pit's gap is its depth, wherever the bar can rest", () => {
  expect(
    searchStraightedge(
      mesh(
        gridLevels(4000, 3000, 500, (x, y) => 0.02 * x - 0.01 * y),
        4000,
        3000,
      ),
      2000,
      5,
    ).worst,
  ).toBeNull();
  expect(
    searchStraightedge(
      mesh(
        gridLevels(8000, 4000, 500, (x) => -0.02 * Math.abs(x - 4000)),
        8000,
        4000,
      ),
      2000,
      5,
    ).worst,
  ).toBeNull();
  const pit = searchStraightedge(
    mesh(
      gridLevels(4000, 4000, 500, (x, y) => (x === 2000 && y === 2000 ? -7 : 0)),
      4000,
      4000,
    ),
    2000,
    5,
  );
  expect(pit.worst!.gapMm).toBeCloseTo(7, 9);
  expect(pit.worst!.at).toEqual([2000, 2000]);
});

test("a paraboloid bowl, sampled: the gap is the sagitta k L L / 4 of the chord", () => {
  // z = k r r: along any line the profile is a parabola with the same second derivative.
  const k = 5 / 1e6;
  const bowl = gridLevels(3000, 3000, 125, (x, y) => k * ((x - 1500) ** 2 + (y - 1500) ** 2));
  const found = searchStraightedge(mesh(bowl, 3000, 3000), 2000, 50);
  const sagitta = (k * 2000 * 2000) / 4;
  expect(found.worst!.gapMm).toBeGreaterThanOrEqual(sagitta - 1e-9);
  // Chords between samples 125 mm apart stand above the bowl by up to k 125^2 / 4, on diagonals twice that.
  expect(found.worst!.gapMm).toBeLessThanOrEqual(sagitta + (k * 2 * 125 * 125) / 4 + 1e-9);
});

test("lines of any place and direction, laid at random, find nothing larger than the search does but for the step stated", () => {
  const next = steadyNumbers(5);
  let worstMiss = 0;
  for (let round = 0; round < 8; round++) {
    const m = mesh(
      gridLevels(4000, 4000, 500, () => next() * 8),
      4000,
      4000,
    );
    const found = searchStraightedge(m, 2000, 100).worst!.gapMm;
    let random = 0;
    for (let k = 0; k < 400; k++) random = Math.max(random, randomLine(m, next));
    worstMiss = Math.max(worstMiss, random - found);
    expect(random).toBeLessThanOrEqual(found * 1.02);
  }
  expect(worstMiss).toBeLessThan(0.15);
});

/** The profile along a random line, by looking at every triangle: nothing shared with the walk but the gap of a profile. */
function randomLine(m: BaseMesh, next: () => number): number {
  const px = 4000 * next();
  const py = 4000 * next();
  const t = next() * 2 - 1;
  const size = Math.sqrt(1 + t * t);
  const [dx, dy] = next() < 0.5 ? [1 / size, t / size] : [t / size, 1 / size];
  const cuts: { s: number; z: number }[] = [];
  for (let e = 0; e < m.corners.length; e++) {
    const p = m.corners[e]!;
    const q = m.corners[e % 3 === 2 ? e - 2 : e + 1]!;
    const dp = (m.y[p]! - py) * dx - (m.x[p]! - px) * dy;
    const dq = (m.y[q]! - py) * dx - (m.x[q]! - px) * dy;
    if (dp > 0 === dq > 0) continue;
    const f = dp / (dp - dq);
    const s = (m.x[p]! + f * (m.x[q]! - m.x[p]!) - px) * dx + (m.y[p]! + f * (m.y[q]! - m.y[p]!) - py) * dy;
    cuts.push({ s, z: m.z[p]! + f * (m.z[q]! - m.z[p]!) });
  }
  cuts.sort((a, b) => a.s - b.s);
  const once = cuts.filter((c, i) => i === 0 || c.s - cuts[i - 1]!.s > 1e-6);
  return (
    largestGap(
      once.map((c) => c.s),
      once.map((c) => c.z),
      once.length,
      2000,
    )?.gap ?? 0
  );
}

test("turning the base by a right angle turns the answer", () => {
  const next = steadyNumbers(3);
  const levels = gridLevels(4000, 3000, 500, () => next() * 9);
  const turned = levels.map(([x, y, z]): [number, number, number] => [3000 - y, x, z]);
  const a = searchStraightedge(mesh(levels, 4000, 3000), 2000, 5).worst!;
  const b = searchStraightedge(mesh(turned, 3000, 4000), 2000, 5).worst!;
  // Cells of a square grid may be cut along either diagonal; the search itself is the same.
  expect(Math.abs(a.gapMm - b.gapMm)).toBeLessThan(0.5);
});
