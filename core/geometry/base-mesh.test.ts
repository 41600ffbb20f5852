import { expect, test } from "vitest";
import { baseSurvey, gridLevels, rectangle, steadyNumbers } from "../../fixtures/bases.ts";
import { type BaseMesh, meshBase } from "./base-mesh.ts";
import { nextEdge } from "./delaunay.ts";
import { aboveLevel, triangleArea } from "./volume.ts";

const ell: [number, number][] = [
  [0, 0],
  [6400, 0],
  [6400, 4200],
  [2400, 4200],
  [2400, 2600],
  [0, 2600],
];

function area(mesh: BaseMesh): number {
  let sum = 0;
  for (let t = 0; t < mesh.corners.length; t += 3) {
    const part = triangleArea(mesh, mesh.corners[t]!, mesh.corners[t + 1]!, mesh.corners[t + 2]!);
    expect(part).toBeGreaterThan(0);
    sum += part;
  }
  return sum;
}

function expectSound(mesh: BaseMesh): void {
  for (let e = 0; e < mesh.corners.length; e++) {
    const twin = mesh.twins[e]!;
    if (twin < 0) {
      expect(mesh.rim[e]).not.toBe(-1);
      continue;
    }
    expect(mesh.twins[twin]).toBe(e);
    expect(mesh.corners[twin]).toBe(mesh.corners[nextEdge(e)]);
    expect(mesh.corners[nextEdge(twin)]).toBe(mesh.corners[e]);
  }
}

test("the mesh covers the outline, less the cut-outs, and knows its sides", () => {
  const post = { name: "post", ring: square(3000, 1000, 200), gapMm: 5, height: "tall" as const };
  const survey = baseSurvey(
    ell,
    gridLevels(6400, 4200, 470, (x, y) => 0.01 * x - 0.02 * y),
    ["wall", "open"],
    [post],
  );
  const mesh = meshBase(survey, survey.levels)!;
  expectSound(mesh);
  expect(area(mesh)).toBeCloseTo(6400 * 2600 + 4000 * 1600 - 200 * 200, 2);
  expect(new Set(mesh.rim)).toEqual(new Set([-1, -2, 0, 1, 2, 3, 4, 5]));
});

test("a plane stays a plane: at the edge, beyond the readings, beside readings outside", () => {
  const plane = (x: number, y: number) => 3 + 0.013 * x - 0.021 * y;
  for (const [from, to] of [
    [-300, 7000],
    [700, 5800],
  ] as const) {
    const levels: [number, number, number][] = [];
    for (let x = from; x <= to; x += 510) for (let y = from; y <= to; y += 430) levels.push([x, y, plane(x, y)]);
    const survey = baseSurvey(ell, levels);
    const mesh = meshBase(survey, survey.levels)!;
    expectSound(mesh);
    for (let i = 0; i < mesh.x.length; i++) expect(mesh.z[i]).toBeCloseTo(plane(mesh.x[i]!, mesh.y[i]!), 6);
    expect(area(mesh)).toBeCloseTo(6400 * 2600 + 4000 * 1600, 2);
    expect(Array.from(mesh.measured).every((m) => m === 1)).toBe(from < 0);
  }
});

test("random readings, random polygons, cut-outs across the edge: sound, and every square millimetre once", () => {
  const next = steadyNumbers(11);
  for (let round = 0; round < 60; round++) {
    const corners = 5 + Math.floor(next() * 9);
    const ring: [number, number][] = [];
    // Star-shaped: one radius for each of evenly spread directions on a diamond.
    for (let k = 0; k < corners; k++) {
      const t = (4 * k) / corners;
      const [dx, dy] = t < 1 ? [1 - t, t] : t < 2 ? [1 - t, 2 - t] : t < 3 ? [t - 3, 2 - t] : [t - 3, t - 4];
      const r = 1500 + 4000 * next();
      ring.push([Math.round(dx * r), Math.round(dy * r)]);
    }
    const levels: [number, number, number][] = [];
    for (let k = 0; k < 40 + 100 * next(); k++) levels.push([next() * 9000 - 4500, next() * 9000 - 4500, next() * 10]);
    const cut = {
      name: "post",
      ring: square(next() * 3000 - 1500, next() * 3000 - 1500, 400),
      gapMm: 5,
      height: "tall" as const,
    };
    const survey = baseSurvey(ring, levels, ["wall"], round % 2 ? [cut] : []);
    const mesh = meshBase(survey, survey.levels);
    if (!mesh) continue;
    expectSound(mesh);
    if (round % 2 === 0) expect(Math.abs(area(mesh) - ringArea(ring))).toBeLessThan(1e-6 * ringArea(ring));
    expect(
      aboveLevel(
        mesh,
        mesh.x.map(() => 1),
      ).volumeMm3,
    ).toBeCloseTo(area(mesh), 0);
  }
});

test("readings on a line, or none, make no surface", () => {
  for (const levels of [
    [],
    [[1, 1, 0]],
    [
      [0, 0, 0],
      [500, 500, 1],
      [900, 900, 2],
    ],
  ] as [number, number, number][][]) {
    const survey = baseSurvey(rectangle(1000, 1000), levels);
    expect(meshBase(survey, survey.levels)).toBeNull();
  }
});

test("the widest distance to a reading: the middle of a grid cell, or a bare corner", () => {
  const grid = baseSurvey(
    rectangle(4000, 3000),
    gridLevels(4000, 3000, 500, () => 0),
  );
  expect(meshBase(grid, grid.levels)!.spacingMm).toBeCloseTo(500 / Math.sqrt(2), 9);
  const bare = baseSurvey(
    rectangle(4600, 3000),
    gridLevels(4000, 3000, 500, () => 0),
  );
  expect(meshBase(bare, bare.levels)!.spacingMm).toBeGreaterThanOrEqual(600);
});

function square(x: number, y: number, size: number): [number, number, number][] {
  return [
    [x, y, 0],
    [x + size, y, 0],
    [x + size, y + size, 0],
    [x, y + size, 0],
  ];
}

function ringArea(ring: [number, number][]): number {
  let twice = 0;
  for (let i = 0; i < ring.length; i++) {
    const [x0, y0] = ring[i]!;
    const [x1, y1] = ring[(i + 1) % ring.length]!;
    twice += x0 * y1 - x1 * y0;
  }
  return twice / 2;
}
