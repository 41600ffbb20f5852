import { expect, test } from "vitest";
import { baseSurvey, gridLevels, rectangle, steadyNumbers } from "../../fixtures/bases.ts";
import { meshBase } from "./base-mesh.ts";
import { floodLevels, gridGraph } from "./flood.ts";
import { findPuddles } from "./puddles.ts";

const mesh = (levels: [number, number, number][], w: number, h: number) => {
  const survey = baseSurvey(rectangle(w, h), levels);
  return meshBase(survey, survey.levels)!;
};
const open = () => true;

test("a pit in a level base: depth, area and volume of the pyramid that the triangles make", () => {
  const m = mesh(
    gridLevels(4000, 4000, 500, (x, y) => (x === 2000 && y === 2000 ? -12 : 0)),
    4000,
    4000,
  );
  const { puddles, shut } = findPuddles(m, open);
  expect(shut).toEqual([]);
  expect(puddles).toHaveLength(1);
  const p = puddles[0]!;
  expect(p.at).toEqual([2000, 2000]);
  expect(p.depthMm).toBe(12);
  // The pyramid over the triangles round the pit: a third of base times depth, whichever diagonals were drawn.
  expect(p.volumeMm3).toBeCloseTo((p.areaMm2 * 12) / 3, 3);
  expect(p.areaMm2).toBeGreaterThanOrEqual(500_000);
  expect(p.areaMm2).toBeLessThanOrEqual(1_000_000);
  expect(p.ring.length).toBeGreaterThanOrEqual(4);
});

test("a trough between two humps fills to the lower hump; a wall at the low side dams the whole fall", () => {
  const humps = (x: number) => (x === 1000 ? 5 : x === 3000 ? 8 : 0);
  const trough = findPuddles(mesh(gridLevels(4000, 2000, 500, humps), 4000, 2000), (rim) => rim === 1 || rim === 3);
  expect(trough.puddles).toHaveLength(1);
  expect(trough.puddles[0]!.depthMm).toBe(5);
  // Full section: 500 mm flat middle of two cells at 5 deep, and the slopes up to 5: half of 500, and 5/8 of that.
  expect(trough.puddles[0]!.volumeMm3).toBeCloseTo(2000 * 5 * (1000 + 250 + (500 * 5) / 8 / 2), 3);
  // 2 % towards a wall at y = 0; water can only leave at the far side, 60 mm up.
  const dam = findPuddles(
    mesh(
      gridLevels(4000, 3000, 500, (_, y) => 0.02 * y),
      4000,
      3000,
    ),
    (rim) => rim === 2,
  );
  expect(dam.puddles[0]!.depthMm).toBe(60);
  expect(dam.puddles[0]!.volumeMm3).toBeCloseTo((4000 * 3000 * 60) / 2, 2);
  expect(dam.puddles[0]!.touches).toEqual([0, 1, 3]);
});

test("a base that water cannot leave is named, with the lowest place as its outlet", () => {
  const { shut, puddles } = findPuddles(
    mesh(
      gridLevels(2000, 2000, 500, (x, y) => x / 100 + y / 50),
      2000,
      2000,
    ),
    () => false,
  );
  expect(shut).toEqual([[0, 0]]);
  expect(puddles).toEqual([]);
});

test("random bases: water stands nowhere above its lowest way out, found the slow way", () => {
  const next = steadyNumbers(21);
  for (let round = 0; round < 100; round++) {
    const z = Array.from({ length: 63 }, () => Math.round(next() * 1000) / 100);
    const graph = gridGraph(z, 9, round % 2 ? 4 : 8);
    const outlets = [Math.floor(next() * 63), Math.floor(next() * 63)];
    const level = floodLevels(graph, outlets);
    // Bellman and Ford's way: lower every point to the greater of its height and its neighbours' level until all stay.
    const slow = z.map((h, i) => (outlets.includes(i) ? h : Number.POSITIVE_INFINITY));
    for (let changed = true; changed; ) {
      changed = false;
      for (let i = 0; i < z.length; i++) {
        for (let k = graph.first[i]!; k < graph.first[i + 1]!; k++) {
          const via = Math.max(z[i]!, slow[graph.neighbours[k]!]!);
          if (via < slow[i]!) {
            slow[i] = via;
            changed = true;
          }
        }
      }
    }
    expect(Array.from(level)).toEqual(slow);
  }
});
