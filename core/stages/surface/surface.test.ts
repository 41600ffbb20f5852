import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { baseJob, baseSurvey, gridLevels, readPoints, rectangle, steadyNumbers } from "../../../fixtures/bases.ts";
import { en } from "../../../words/en/index.ts";
import { surface as words } from "../../../words/en/surface.ts";
import type { Finding } from "../../base/finding.ts";
import type { SurfaceRecord, SurfaceStage } from "./record.ts";
import { judgeSurface } from "./surface.ts";

const codes = (s: SurfaceStage) => s.findings.map((f) => f.code);
const rules = (s: SurfaceStage) => new Set(s.findings.map((f) => f.rule));
const find = (s: SurfaceStage, code: string): Finding => s.findings.find((f) => f.code === code)!;
const good = (x: number, y: number) => -0.02 * y + 0 * x;
const away = ["wall", "open", "open", "open"] as const;

test("a true base is accepted, with its fall and its proof", () => {
  const stage = judgeSurface(baseJob(), baseSurvey(rectangle(4000, 3000), gridLevels(4000, 3000, 500, good), away));
  const s = stage.surface!;
  expect(stage.findings).toEqual([]);
  expect(s.verdict).toBe("accept");
  expect(s.plane.fall).toBeCloseTo(2, 9);
  expect(s.plane.towards).toBeCloseTo(90, 9);
  expect(s.straightedge).toBeNull();
  expect(s.facets).toHaveLength(1);
  expect(s.facets[0]!.areaMm2).toBeCloseTo(12e6, 3);
  expect(s.edgeTriangles).toEqual([]);
});

test("a grid wider than 500 mm proves nothing by itself; a straightedge reading does", () => {
  const survey = baseSurvey(rectangle(4000, 3000), gridLevels(4000, 3000, 1000, good), away);
  const stage = judgeSurface(baseJob(), survey);
  expect(stage.surface!.verdict).toBe("not-proven");
  expect(find(stage, "notProven")).toMatchObject({ rule: "notProven", releasedBy: "reading", limit: 500 });
  expect(find(stage, "notProven").found).toBeCloseTo(1000, 6);
  const read = { ...survey, straightedges: [{ from: [100, 100] as const, to: [2100, 100] as const, gapMm: 2 }] };
  const proven = judgeSurface(baseJob(), read);
  expect(proven.surface!.verdict).toBe("accept");
  expect(proven.surface!.straightedge).toMatchObject({ gapMm: 2, lengthMm: 2000, at: [1100, 100] });
  const over = { ...survey, straightedges: [{ from: [100, 100] as const, to: [2100, 100] as const, gapMm: 6 }] };
  const bad = judgeSurface(baseJob(), over);
  expect(bad.surface!.verdict).toBe("prepare");
  expect(find(bad, "unevennessRead")).toMatchObject({ rule: "unevenness", found: 6, limit: 5, at: [1100, 100] });
});

test("no levels, one, two, three in line: no surface, a finding, never a verdict; the rest is judged all the same", () => {
  const line: [number, number, number][] = [
    [0, 0, 0],
    [500, 500, 1],
    [1000, 1000, 7],
  ];
  for (const [levels, code] of [
    [[], "noLevels"],
    [line.slice(0, 1), "fewLevels"],
    [line.slice(0, 2), "fewLevels"],
    [line, "fewLevels"],
  ] as const) {
    const survey = {
      ...baseSurvey(rectangle(4000, 3000), levels),
      straightedges: [{ from: [0, 0] as const, to: [2000, 0] as const, gapMm: 9 }],
    };
    const stage = judgeSurface(baseJob({ membrane: "unknown" }), survey);
    expect(stage.surface).toBeNull();
    expect(codes(stage)).toEqual(["membrane", "unevennessRead", code]);
    expect(find(stage, code)).toMatchObject({ rule: "noLevels", level: "warn", releasedBy: "reading" });
  }
  const three = judgeSurface(
    baseJob(),
    baseSurvey(rectangle(4000, 3000), [
      [0, 0, 0],
      [4000, 0, 1],
      [0, 3000, 2],
    ]),
  );
  expect(three.surface!.verdict).not.toBe("accept");
});

test("levels outside the outline count in no verdict", () => {
  const levels = gridLevels(4000, 3000, 500, good);
  const wild: [number, number, number][] = [
    [-600, 1500, 90],
    [4600, 1500, -90],
    [2000, 3700, 300],
  ];
  const inside = judgeSurface(baseJob(), baseSurvey(rectangle(4000, 3000), levels, away));
  const both = judgeSurface(baseJob(), baseSurvey(rectangle(4000, 3000), [...levels, ...wild], away));
  expect(both.surface!.plane).toEqual(inside.surface!.plane);
  expect(both.surface!.zone).toEqual(inside.surface!.zone);
  expect(both.surface!.straightedge).toEqual(inside.surface!.straightedge);
  expect(both.surface!.verdict).toBe("accept");
  expect(codes(both)).toEqual(["levelsOutside"]);
});

test("a slab of 8 x 4 m with a ridge: two facets with their own falls, and no deviation", () => {
  for (const at of [4000, 4100, 3250]) {
    const survey = baseSurvey(
      rectangle(8000, 4000),
      gridLevels(8000, 4000, 500, (x) => (x < at ? 0.02 : -0.025) * (x - at)),
    );
    const { surface, findings } = judgeSurface(baseJob(), survey);
    expect(findings).toEqual([]);
    expect(surface!.verdict).toBe("accept");
    expect(surface!.facets).toHaveLength(2);
    const [a, b] = [...surface!.facets].sort((p, q) => p.plane.fall - q.plane.fall);
    expect([a!.plane.fall, a!.plane.towards]).toEqual([expect.closeTo(2, 9), expect.closeTo(180, 9)]);
    expect([b!.plane.fall, b!.plane.towards]).toEqual([expect.closeTo(2.5, 9), expect.closeTo(0, 9)]);
    for (const f of surface!.facets) expect(f.halfWidthMm).toBeLessThan(1e-9);
    expect(surface!.zone.halfWidthMm).toBeGreaterThan(10);
    expect(
      a!.ring
        .map((p) => p[0])
        .sort((p, q) => p - q)
        .at(-1),
    ).toBeCloseTo(at, 2);
  }
});

test("each breach has its rule, its figure and its place", () => {
  const job = baseJob();
  const of = (z: (x: number, y: number) => number, sides: Parameters<typeof baseSurvey>[2] = away) =>
    judgeSurface(job, baseSurvey(rectangle(4000, 3000), gridLevels(4000, 3000, 500, z), sides));

  const pit = of((x, y) => good(x, y) - (x === 2000 && y === 1500 ? 8 : 0));
  expect(find(pit, "unevenness")).toMatchObject({ at: [2000, 1500], limit: 5, level: "warn" });
  expect(find(pit, "unevenness").found).toBeCloseTo(8, 6);
  expect(codes(pit).filter((c) => c === "unevenness")).toHaveLength(1);

  const hump = of((x, y) => good(x, y) + (x === 2000 && y === 1500 ? 22 : 0));
  expect(find(hump, "deviation").found).toBeCloseTo(11, 6);

  expect(
    find(
      of((_, y) => -0.015 * y),
      "fall",
    ).found,
  ).toBeCloseTo(1.5, 9);
  expect(
    find(
      of((_, y) => -0.05 * y),
      "fallMax",
    ).found,
  ).toBeCloseTo(5, 9);
  expect(of((_, y) => -0.05 * y).surface!.verdict).toBe("prepare");

  const house = of((_, y) => 0.02 * y);
  expect(find(house, "fallToHouse")).toMatchObject({ at: [2000, 0], data: { kind: "wall" } });
  const dammed = of((_, y) => 0.02 * y, ["wall", "wall", "open", "wall"]);
  expect(find(dammed, "puddle").found).toBeCloseTo(60, 6);
  expect(find(dammed, "puddle").at![1]).toBe(0);
  const door = of((_, y) => 0.02 * y, ["door", "open", "open", "open"]);
  expect(find(door, "fallToHouse").data).toMatchObject({ kind: "door" });
  // Along a wall is not towards it, and an outlet or a kerb is no house.
  expect(codes(of((x) => -0.02 * x))).not.toContain("fallToHouse");
  expect(codes(of((_, y) => 0.02 * y, ["outlet", "open", "open", "open"]))).toEqual([]);

  const flat = of((x, y) => -0.02 * Math.min(y, 1000) - 0.002 * Math.max(0, y - 1000) + 0 * x);
  expect(rules(flat)).toContain("fallLocal");
  expect(codes(flat).filter((c) => c === "fallLocal")).toHaveLength(1);

  const shut = of(good, ["wall"]);
  expect(codes(shut)).toEqual(["noOutlet"]);
  expect(shut.surface!.verdict).toBe("not-proven");
});

test("puddles: 5 mm deep and 1 m2 wide stand (NHBC 2018, 9.1.11), more does not; a lid is taken for a gully and says so", () => {
  const dish = (depth: number, r: number) => (x: number, y: number) =>
    -depth * Math.max(0, 1 - Math.sqrt((x - 2500) ** 2 + (y - 2500) ** 2) / r);
  const of = (depth: number, r: number, lid: boolean) => {
    const ring = [
      [2450, 2450, 0],
      [2550, 2450, 0],
      [2550, 2550, 0],
      [2450, 2550, 0],
    ] as [number, number, number][];
    const cut = lid ? [{ name: "gully", ring, gapMm: 5, height: "removable" as const }] : [];
    return judgeSurface(
      baseJob(),
      baseSurvey(rectangle(5000, 5000), gridLevels(5000, 5000, 250, dish(depth, r)), ["open"], cut),
    );
  };
  expect(codes(of(5, 500, false))).not.toContain("puddle");
  expect(find(of(5.5, 500, false), "puddle")).toMatchObject({ at: [2500, 2500], limit: 5, found: 5.5 });
  expect(find(of(4, 1000, false), "puddle")).toMatchObject({ limit: 1_000_000 });
  const drained = of(20, 1500, true);
  expect(codes(drained)).toContain("lidDrains");
  expect(codes(drained)).not.toContain("puddle");
});

test("hidden things stop drilling until a named person confirms; firmness and kind speak too", () => {
  const survey = baseSurvey(rectangle(4000, 3000), gridLevels(4000, 3000, 500, good), away);
  for (const of of ["membrane", "heating", "tendons"] as const) {
    for (const said of [true, "unknown"] as const) {
      const stage = judgeSurface(baseJob({ [of]: said }), survey);
      expect(find(stage, of)).toMatchObject({ rule: of, level: "stop", releasedBy: "person" });
      expect(stage.surface!.verdict).toBe("stop");
      expect(stage.surface!.shapeVerdict).toBe("accept");
      const named = judgeSurface(
        baseJob({ [of]: said, confirmed: [{ of, by: "N. Bauer", on: "2026-01-02", says: "40 mm free" }] }),
        survey,
      );
      expect(named.surface!.verdict).toBe("accept");
      expect(find(named, "confirmed")).toMatchObject({ rule: of, level: "note", data: { by: "N. Bauer" } });
      const nobody = judgeSurface(baseJob({ [of]: said, confirmed: [{ of, by: " ", on: "", says: "" }] }), survey);
      expect(nobody.surface!.verdict).toBe("stop");
    }
  }
  expect(find(judgeSurface(baseJob({ firm: false }), survey), "firmNot").level).toBe("stop");
  const unsure = judgeSurface(baseJob({ firm: "unknown" }), survey);
  expect(find(unsure, "firmUnknown").level).toBe("warn");
  expect(unsure.surface!.verdict).not.toBe("accept");
  for (const kind of ["asphalt", "paving"] as const)
    expect(find(judgeSurface(baseJob({ kind }), survey), "baseKind").level).toBe("stop");
  const loose = {
    ...survey,
    loose: [
      {
        name: "tiles by the door",
        kind: "tiles",
        ring: [
          [0, 0, 0],
          [900, 0, 0],
          [0, 900, 0],
        ] as [number, number, number][],
      },
    ],
  };
  expect(judgeSurface(baseJob(), loose).surface!.verdict).toBe("prepare");
});

test("real probed surfaces, scaled ten times in plan for a 2 m straightedge on 9 x 11 m: judged whole, proof and all", () => {
  let before = Number.POSITIVE_INFINITY;
  for (const name of ["probed-starting-mesh", "probed-post-surfacing-1-mesh", "probed-post-surfacing-2-mesh"]) {
    const points = readPoints(readFileSync(new URL(`../../../fixtures/data/${name}.xyz`, import.meta.url), "utf8"));
    const levels = points.map(([x, y, z]): [number, number, number] => [10 * x, 10 * y, z]);
    const width = Math.max(...levels.map((p) => p[0]));
    const height = Math.max(...levels.map((p) => p[1]));
    const { surface, findings } = judgeSurface(baseJob(), baseSurvey(rectangle(width, height), levels, away));
    const s = surface!;
    expectSound(s);
    expect(rules({ surface, findings })).toContain("fall");
    // Residuals of the zone bound those of every plane; the least-squares plane can only be worse in its greatest.
    const worst = Math.max(...levels.map(([x, y, z]) => Math.abs(z - s.plane.a * x - s.plane.b * y - s.plane.c)));
    expect(s.zone.halfWidthMm).toBeLessThanOrEqual(worst + 1e-9);
    expect(s.zone.halfWidthMm).toBeLessThanOrEqual(before + 1e-9);
    if (name !== "probed-starting-mesh") continue;
    before = s.zone.halfWidthMm * 10;
  }
});

function expectSound(s: SurfaceRecord): void {
  let sum = 0;
  for (const [k, [, , z]] of s.zone.points.entries()) sum += z * s.zone.weights[k]!;
  expect(sum).toBeCloseTo(s.zone.halfWidthMm, 7);
  expect(s.triangles.length % 3).toBe(0);
  for (const i of s.triangles) expect(s.points[i]).toBeDefined();
}

test("the same base, the same bytes; turned by a right angle, the same figures", () => {
  const next = steadyNumbers(12);
  const levels = gridLevels(5000, 4000, 500, (x, y) => 0.01 * x - 0.02 * y + 6 * next());
  const survey = baseSurvey(rectangle(5000, 4000), levels, away);
  const once = judgeSurface(baseJob(), survey);
  expect(JSON.stringify(judgeSurface(baseJob(), survey))).toBe(JSON.stringify(once));
  const turned = levels.map(([x, y, z]): [number, number, number] => [4000 - y, x, z]);
  const ring: [number, number][] = [
    [4000, 0],
    [4000, 5000],
    [0, 5000],
    [0, 0],
  ];
  const other = judgeSurface(baseJob(), baseSurvey(ring, turned, away)).surface!;
  expect(other.plane.fall).toBeCloseTo(once.surface!.plane.fall, 9);
  expect((other.plane.towards - once.surface!.plane.towards + 360) % 360).toBeCloseTo(90, 6);
  expect(other.zone.halfWidthMm).toBeCloseTo(once.surface!.zone.halfWidthMm, 7);
});

test("every finding has a sentence with what and what to do", () => {
  const write = {
    mm: String,
    mm1: String,
    m2: String,
    percent: (v: number) => `${v} %`,
    number: (v: number) => String(v),
    money: (v: number, c: string) => `${v} ${c}`,
  };
  const next = steadyNumbers(5);
  for (let round = 0; round < 40; round++) {
    const survey = baseSurvey(
      rectangle(4000, 3000),
      gridLevels(4000, 3000, 500 + 500 * (round % 2), (_, y) => (next() - 0.5) * 0.1 * y + 20 * next()),
      ["door", "wall", "open"],
    );
    for (const f of judgeSurface(baseJob({ membrane: "unknown", firm: "unknown", kind: "paving" }), survey).findings) {
      const said = (
        words[f.code as keyof typeof words] as (d: unknown, f: Finding, w: typeof write) => { says: string; do: string }
      )(f.data, f, write);
      expect(said.says.length).toBeGreaterThan(10);
      expect(said.do.length).toBeGreaterThan(10);
      expect(said.says + said.do).not.toMatch(/undefined|NaN|\berror\b|invalid|oops/i);
    }
  }
});

test("a fall short by a hair is to be prepared, says by how little, and may be accepted in writing", () => {
  const fallOf = (slope: number) => {
    const levels = gridLevels(4000, 3000, 500, (_, y) => -slope * y);
    const stage = judgeSurface(baseJob(), baseSurvey(rectangle(4000, 3000), levels, away));
    const finding = find(stage, "fall");
    expect(stage.surface!.verdict).toBe("prepare");
    return { finding, said: words.fall(finding.data as never, finding as never, en.write) };
  };
  const hair = fallOf(0.019996);
  expect(hair.finding.releasedBy).toBe("document");
  expect(hair.said.says).toContain("0.0004 % is missing, less than 0.1 mm over 2 m");
  expect(hair.said.do).toContain("in writing");
  expect(fallOf(0.0196).said.says).toContain("0.0400 % is missing, 0.8 mm over 2 m");
  const much = fallOf(0.0194);
  expect(much.finding.releasedBy).toBeNull();
  expect(much.said.says + much.said.do).not.toMatch(/missing|writing/);
});
