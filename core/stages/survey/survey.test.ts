import { describe, expect, test } from "vitest";
import type { Vertex } from "../../job/job.ts";
import { loadJob } from "../../plan/load.ts";
import { turnEdges, turnRound } from "./outline.ts";

const BOARD = { lengths: [{ length: 1500 }], width: 145, rise: 25 };
const L = [
  [0, 0],
  [6400, 0],
  [6400, 4200],
  [2400, 4200],
  [2400, 2600],
  [0, 2600],
];
const load = (site: object, more: object = {}) =>
  loadJob(JSON.stringify({ format: "rowline/job@1", title: "t", board: BOARD, site, ...more }), "a.job.json");
const surveyOf = (site: object, more: object = {}) => {
  const loaded = load(site, more);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  return loaded.value.survey;
};
const problemsOf = (site: object, more: object = {}) => {
  const loaded = load(site, more);
  return loaded.ok ? [] : loaded.problems.map((one) => [one.code, one.place]);
};
const codesOf = (survey: { findings: { code: string }[] }) => survey.findings.map((one) => one.code);

describe("outline", () => {
  test("a clockwise outline is turned round with its sides, and its arcs stay where they are", () => {
    const kinds = ["wall", "open", "door", "kerb"];
    const ccw = surveyOf({
      outline: [
        [0, 0, 0.2],
        [4000, 0],
        [4000, 3000],
        [0, 3000],
      ],
      sides: kinds,
    });
    const cw = surveyOf({
      outline: [
        [0, 3000],
        [4000, 3000],
        [4000, 0, -0.2],
        [0, 0],
      ],
      sides: ["door", "open", "wall", "kerb"],
    });
    expect(cw.areaMm2).toBeCloseTo(ccw.areaMm2, 6);
    const edges = (survey: typeof ccw) =>
      survey.outline.map((v, i) => {
        const w = survey.outline[(i + 1) % survey.outline.length]!;
        return `${v[0]},${v[1]} > ${w[0]},${w[1]} bulge ${v[2]} ${survey.sides[i]!.kind}`;
      });
    expect(edges(cw).sort()).toEqual(edges(ccw).sort());
    expect(cw.sides.map((side) => side.source).sort()).toEqual([0, 1, 2, 3]);
    for (const side of cw.sides) expect(["door", "open", "wall", "kerb"][side.source]).toBe(side.kind);
  });

  test("turning twice is turning not at all", () => {
    const ring: Vertex[] = [
      [0, 0, 0.5],
      [5, 0, 0],
      [5, 5, -0.25],
      [0, 7, 0],
    ];
    expect(turnRound(turnRound(ring))).toEqual(ring);
    expect(turnEdges(turnEdges([1, 2, 3, 4]))).toEqual([1, 2, 3, 4]);
  });

  test("gaps hold as given, else by the kind of side", () => {
    const sides = ["wall", "open", { kind: "wall", gap: 12 }, { kind: "open", gap: 0 }, "pool", "door"];
    expect(surveyOf({ outline: L, sides }).sides.map((side) => side.gapMm)).toEqual([10, 2, 12, 0, 10, 10]);
    expect(surveyOf({ outline: L, sides }, { trim: null, gaps: { edge: 8 } }).sides.map((side) => side.gapMm)).toEqual([
      8, 0, 12, 0, 8, 8,
    ]);
  });

  test("wall offsets turn one side into several, left of it positive", () => {
    const survey = surveyOf({
      outline: L,
      offsets: [
        { side: 0, along: 4000, offset: 8 },
        { side: 0, along: 2000, offset: -5 },
      ],
    });
    expect(survey.outline.slice(0, 4)).toEqual([
      [0, 0, 0],
      [2000, -5, 0],
      [4000, 8, 0],
      [6400, 0, 0],
    ]);
    expect(survey.sides.map((side) => side.source)).toEqual([0, 0, 0, 1, 2, 3, 4, 5]);
    // -5 at 2000, +8 at 4000 of 6400: trapezoids by hand
    const before = surveyOf({ outline: L }).areaMm2;
    expect(survey.areaMm2 - before).toBeCloseTo(2000 * 2.5 - 2000 * 1.5 - 2400 * 4, 3);
  });

  test("offsets that cannot be are refused", () => {
    const site = {
      outline: [
        [0, 0, 0.1],
        [6000, 0],
        [6000, 4000],
        [0, 4000],
      ],
    };
    const offsets = [
      { side: 0, along: 100, offset: 1 },
      { side: 1, along: 4000, offset: 1 },
      { side: 2, along: 50, offset: 1 },
      { side: 2, along: 50, offset: 2 },
      { side: 9, along: 50, offset: 2 },
    ];
    expect(problemsOf({ ...site, offsets })).toEqual([
      ["offsetOnArc", "site.offsets[0]"],
      ["offsetBeyond", "site.offsets[1].along"],
      ["offsetTwice", "site.offsets[3].along"],
      ["offsetSide", "site.offsets[4].side"],
    ]);
    expect(problemsOf({ outline: L, offsets: [{ side: 0, along: 3000, offset: 5000 }] })).toContainEqual([
      "offsetsCross",
      "site.offsets",
    ]);
  });
});

describe("cut-outs", () => {
  test("may stand in the wall or off a corner, and may be flush", () => {
    const cutouts = [
      {
        name: "downpipe",
        ring: [
          [-40, 1000],
          [60, 1000],
          [60, 1100],
          [-40, 1100],
        ],
      },
      {
        name: "gully",
        ring: [
          [3000, 1000],
          [3200, 1000],
          [3200, 1200],
          [3000, 1200],
        ],
        height: "flush",
        gap: 3,
      },
    ];
    const survey = surveyOf({ outline: L, cutouts });
    expect(survey.cutouts.map((one) => one.gapMm)).toEqual([10, 3]);
    expect(survey.areaMm2 - survey.netAreaMm2).toBeCloseTo(60 * 100 + 200 * 200, 3);
  });

  test("outside, touching from outside, or covering everything they are refused", () => {
    const square = (x: number, y: number, size: number) => [
      [x, y],
      [x + size, y],
      [x + size, y + size],
      [x, y + size],
    ];
    expect(
      problemsOf({ outline: L, cutouts: [{ ring: square(-500, 0, 100) }, { ring: square(-100, 0, 100) }] }),
    ).toEqual([
      ["cutoutOutside", "site.cutouts[0]"],
      ["cutoutOutside", "site.cutouts[1]"],
    ]);
    expect(problemsOf({ outline: L, cutouts: [{ ring: square(-1000, -1000, 9000) }] })).toEqual([
      ["cutoutsCoverAll", "site.cutouts"],
    ]);
    expect(problemsOf({ outline: L, cutouts: [{ ring: L }] })).toEqual([["cutoutsCoverAll", "site.cutouts"]]);
    // two halves that cover it together
    expect(
      problemsOf({
        outline: [
          [0, 0],
          [2000, 0],
          [2000, 1000],
          [0, 1000],
        ],
        cutouts: [{ ring: square(0, 0, 1000) }, { ring: square(900, -50, 1200) }],
      }),
    ).toEqual([["cutoutsCoverAll", "site.cutouts"]]);
  });
});

describe("readings", () => {
  const grid = (odd: number[][] = []) => {
    const levels: number[][] = [];
    for (let x = 500; x < 6400; x += 1000)
      for (let y = 300; y < 2600; y += 600) levels.push([x, y, 100 - 0.02 * x + (x % 3)]);
    return { survey: { levels: [...levels, ...odd] } };
  };
  const count = grid().survey.levels.length;

  test("good readings raise nothing", () => {
    const survey = surveyOf({ outline: L }, grid());
    expect(codesOf(survey)).toEqual([]);
    expect(survey.levels).toHaveLength(count);
  });
  test("two at one place become their mean, and it is said", () => {
    const survey = surveyOf({ outline: L }, grid([[500, 300, 130]]));
    expect(survey.levels).toHaveLength(count);
    expect(survey.findings).toMatchObject([{ code: "levelTwice", level: "warn", data: { readings: 2 } }]);
  });
  test("three metres off is left out and named", () => {
    const survey = surveyOf({ outline: L }, grid([[3000, 1000, 3040]]));
    expect(survey.findings).toMatchObject([{ code: "levelFar", at: [3000, 1000], data: { z: 3040 } }]);
    expect(survey.levels).toHaveLength(count);
  });
  test("a misplaced point is said to be one", () => {
    const survey = surveyOf({ outline: L }, grid([[3000, 1000, 400]]));
    expect(survey.findings).toMatchObject([{ code: "levelDecimal", data: { z: 400, likely: 40 } }]);
  });
  test("a step in the base is no slip", () => {
    const step = grid().survey.levels.map(([x, y, z]) => [x, y, z! + (x! > 4000 ? 400 : 0)]);
    const survey = surveyOf({ outline: L }, { survey: { levels: step } });
    expect(survey.levels).toHaveLength(count);
  });
  test("beside the outline is kept, a kilometre off is not", () => {
    const survey = surveyOf(
      { outline: L },
      grid([
        [1000, 3500, 80],
        [1_000_000, 0, 0],
      ]),
    );
    expect(codesOf(survey).sort()).toEqual(["levelAway", "levelsOutside"]);
    expect(survey.levels).toHaveLength(count + 1);
  });
  test("within 2 mm of the outline, or what the tape tells, is on it", () => {
    const edge = (y: number) => grid([[1000, y, 80]]);
    const outline = [...L.slice(0, 5), [0, 2599.855]];
    const near = surveyOf({ outline }, edge(2601.5));
    expect(codesOf(near)).toEqual([]);
    expect(near.levels).toHaveLength(count + 1);
    expect(near.levels[count]!.yMm).toBeCloseTo(2599.855 + (0.145 * 1000) / 2400, 3);
    expect(codesOf(surveyOf({ outline: L }, edge(2603)))).toEqual(["levelsOutside"]);
    const taped = edge(2603);
    expect(codesOf(surveyOf({ outline: L }, { survey: { ...taped.survey, sigma: { tape: 4 } } }))).toEqual([]);
  });
  test("a straightedge needs two ends", () => {
    const survey = { straightedges: [{ from: [1, 1], to: [1, 1], gap: 2 }] };
    expect(problemsOf({ outline: L }, { survey })).toEqual([["straightedgeNoLength", "survey.straightedges[0]"]]);
    const beside = { straightedges: [{ from: [-900, -900], to: [-900, -100], gap: 2 }] };
    expect(codesOf(surveyOf({ outline: L }, { survey: beside }))).toEqual(["straightedgeOutside"]);
  });
  test("areas and slabs that do not fit are said", () => {
    const site = {
      outline: L,
      noDrill: [
        {
          ring: [
            [-10, -10],
            [-5, -10],
            [-5, -5],
          ],
        },
      ],
      slab: [
        [0, 0],
        [6400, 0],
        [6400, 2600],
        [0, 2600],
      ],
    };
    expect(codesOf(surveyOf(site)).sort()).toEqual(["areaOutside", "slabShort"]);
    expect(codesOf(surveyOf({ outline: L }, { survey: { ties: [["A", "B", 5]] } }))).toEqual(["tiesUnused"]);
  });
});
