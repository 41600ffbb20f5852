import { describe, expect, test } from "vitest";
import { loadJob } from "../../core/plan/load.ts";
import { readProgress } from "../../core/progress/read.ts";
import type { Problem, Read } from "../../core/read/problem.ts";
import { en } from "./index.ts";
import { problems } from "./problems.ts";

type Any = Record<string, unknown>;
const BOARD = { lengths: [{ length: 1500 }], width: 145, rise: 25 };
const OUTLINE = [
  [0, 0],
  [6000, 0],
  [6000, 4000],
  [0, 4000],
];
const job = (site: Any, more: Any = {}): string =>
  JSON.stringify({ format: "rowline/job@1", title: "t", board: BOARD, site: { outline: OUTLINE, ...site }, ...more });
const tape = (marks: string[], ties: unknown[]): string => job({ outline: null, marks }, { survey: { ties } });
const event = (id: string, kind: string, more: Any): Any => ({
  id,
  kind,
  when: "2026-05-14T09:30:00Z",
  by: "Ada",
  ...more,
});
const progress = (...events: Any[]): string =>
  JSON.stringify({ format: "rowline/progress@1", job: "a".repeat(64), plan: "b".repeat(64), events });
const square = (x: number, size: number): number[][] => [
  [x, 0],
  [x + size, 0],
  [x + size, size],
  [x, size],
];
const circles = Array.from({ length: 300 }, (_, i) => [
  [i * 3000, 0, 1],
  [i * 3000 + 1000, 0, 1],
]);

/** A text for every code a job can raise. */
const JOBS: Record<string, string> = {
  textTooLarge: `"${"x".repeat(64 * 1024 * 1024)}"`,
  textEmpty: "\n",
  tooDeep: "[".repeat(100),
  syntax: "{,}",
  brokenText: '{"a":"\\ud800"}',
  notFinite: '{"a":1e999}',
  repeatedKey: '{"a":1,"a":2}',
  unknownKey: job({ outlin: [] }),
  missing: "{}",
  wrongType: job({ sides: 5 }),
  wrongChoice: job({}, { bond: { kind: "hlaf" } }),
  tooSmall: job({}, { board: { ...BOARD, width: -5 } }),
  tooGreat: job({}, { board: { ...BOARD, width: 5000 } }),
  notWhole: job({}, { clips: { perPiece: 2.5 } }),
  tooFew: job({}, { board: { ...BOARD, lengths: [] } }),
  tooMany: job({}, { survey: { levels: [[1, 2, 3, 4]] } }),
  textTooShort: job({}, { title: "" }),
  textTooLong: job({}, { title: "x".repeat(501) }),
  textPattern: job({}, { currency: "euro" }),
  otherFormat: job({}, { format: "rowline/plan@1" }),
  futureFormat: job({}, { format: "rowline/job@9" }),
  moreProblems: job({}, { survey: { levels: Array.from({ length: 500 }, () => ["x", 0, 0]) } }),
  noOutline: job({ outline: null }),
  outlineTwice: job({ marks: ["A", "B", "C", "D"] }),
  sidesCount: job({ sides: ["wall"] }),
  moreThan: job({}, { bond: { minRip: 200 } }),
  sideGapOutsideRange: job({}, { gaps: { side: 9, sideRange: [4, 6] } }),
  offsetSide: job({ offsets: [{ side: 7, along: 1, offset: 1 }] }),
  fewMarks: tape(["A", "B"], [["A", "B", 5]]),
  markTwice: tape(["A", "B", "C", "A"], [["A", "B", 5]]),
  unknownMark: tape(["A1", "B1", "C1"], [["A1", "B", 5]]),
  tieToItself: tape(["A", "B", "C"], [["A", "A", 5]]),
  fewCorners: job({
    outline: [
      [0, 0],
      [500, 500],
    ],
  }),
  repeatedCorner: job({ outline: [...OUTLINE, [0, 0]] }),
  spike: job({
    outline: [
      [0, 0],
      [6000, 0],
      [3000, 0],
      [3000, 4000],
    ],
  }),
  bulgeTooGreat: job({
    outline: [
      [0, 0, 99],
      [6000, 0],
      [6000, 4000],
    ],
  }),
  ringCrosses: job({
    outline: [
      [0, 0],
      [6000, 4000],
      [6000, 0],
      [0, 4000],
    ],
  }),
  noArea: job({
    outline: [
      [0, 0],
      [6, 0],
      [6, 4],
    ],
  }),
  tooWide: job({
    outline: [
      [0, 0],
      [6e6, 0],
      [6e6, 4000],
    ],
  }),
  tooFar: job({
    baseJoints: [
      [
        [0, 0],
        [1e10, 0],
      ],
    ],
  }),
  tooManyBoards: job({ outline: square(0, 999_000) }),
  tooManyClips: job({ outline: square(0, 160_000) }, { clips: { length: 10, clearMax: 12 } }),
  tooThin: job({
    outline: [
      [0, 0],
      [900_000, 0],
      [900_000, 900_000],
      [0, 900_000],
      [0, 899_980],
      [899_980, 899_980],
      [899_980, 20],
      [0, 20],
    ],
  }),
  lengthTwice: job({}, { board: { ...BOARD, lengths: [{ length: 1500 }, { length: 1500, price: 5 }] } }),
  tooManyArcPoints: job({ outline: Array.from({ length: 8000 }, (_, i) => [i * 100, i % 2 ? 900_000 : 0, 1]) }),
  cutoutOutside: job({ cutouts: [{ ring: square(9000, 100) }] }),
  cutoutsCoverAll: job({
    cutouts: [{ ring: square(-1000, 9000) }],
    outline: [
      [0, 10],
      [6000, 10],
      [6000, 4000],
      [0, 4000],
    ],
  }),
  offsetOnArc: job({
    outline: [
      [0, 0, 0.1],
      [6000, 0],
      [6000, 4000],
    ],
    offsets: [{ side: 0, along: 5, offset: 5 }],
  }),
  offsetBeyond: job({ offsets: [{ side: 0, along: 7000, offset: 5 }] }),
  offsetTwice: job({
    offsets: [
      { side: 0, along: 700, offset: 5 },
      { side: 0, along: 700, offset: 6 },
    ],
  }),
  offsetsCross: job({ offsets: [{ side: 0, along: 3000, offset: 5000 }] }),
  straightedgeNoLength: job({}, { survey: { straightedges: [{ from: [5, 5], to: [5, 5], gap: 1 }] } }),
  manyMarks: tape(
    Array.from({ length: 400 }, (_, i) => `M${i}`),
    [["M0", "M1", 5]],
  ),
  looseMark: tape(
    ["A", "B", "C", "D"],
    [
      ["A", "B", 5000],
      ["B", "C", 4000],
      ["C", "D", 5000],
      ["D", "A", 4000],
    ],
  ),
};
/** And for every code a progress file can. */
const PROGRESS: Record<string, string> = {
  eventTwice: progress(event("a", "laid", { piece: "p1" }), event("a", "laid", { piece: "p2" })),
  undoOfNothing: progress(event("a", "undo", { event: "b7" })),
  undoOfLater: progress(event("a", "undo", { event: "b" }), event("b", "laid", { piece: "p1" })),
  undoTwice: progress(
    event("a", "laid", { piece: "p1" }),
    event("b", "undo", { event: "a" }),
    event("c", "undo", { event: "a" }),
  ),
  undoOfUndo: progress(
    event("a", "laid", { piece: "p1" }),
    event("b", "undo", { event: "a" }),
    event("c", "undo", { event: "b" }),
  ),
  laidTwice: progress(event("a", "laid", { piece: "p1" }), event("b", "laid", { piece: "p1" })),
  brokenWhat: progress(event("a", "broken", {})),
};
/** Codes that need a plan beside the progress file: core/progress/resume.test.ts. */
const WITH_PLAN = ["otherJob", "otherPlan", "notInPlan"];

const found = (read: Read<unknown>): readonly Problem[] => (read.ok ? [] : read.problems);

describe("every problem", () => {
  test("is raised by some file, and no other is in the tables", () => {
    expect([...Object.keys(JOBS), ...Object.keys(PROGRESS), ...WITH_PLAN].sort()).toEqual(Object.keys(problems).sort());
  });
  test.each(Object.keys(JOBS))("%s", (code) => {
    const list = found(loadJob(JOBS[code]!, "a.job.json"));
    expect(list.map((one) => one.code)).toContain(code);
    expectSaid(list);
  });
  test.each(Object.keys(PROGRESS))("%s", (code) => {
    const list = found(readProgress(PROGRESS[code]!, "a.progress.json"));
    expect(list.map((one) => one.code)).toContain(code);
    expectSaid(list);
  });
});

function expectSaid(list: readonly Problem[]): void {
  for (const problem of list) {
    const said = en.sayProblem(problem);
    for (const text of [said.says, said.do]) {
      expect(text).toMatch(/^.{4,}[.:]?/);
      expect(text).not.toMatch(/undefined|NaN|\[object|error|invalid|oops/i);
    }
    expect(problem.line, problem.code).toBeGreaterThanOrEqual(problem.code === "moreProblems" ? 0 : 1);
  }
}

test("twenty problems are twenty, in the order of the file, from syntax of keys to geometry", () => {
  const text = `{
 "format": "rowline/job@1",
 "titel": "t",
 "currency": "euro",
 "site": {
  "outline": [[0, 0], [6000, 4000], [6000, 0], [0, 4000]],
  "sides": ["wall", "wal", "wall", "wall"],
  "cutouts": [
   {"ring": [[0, 0], [1, "x"], [1, 1]]},
   {"ring": [[0, 0], [500, 500], [500, 0], [0, 500]], "gap": -3},
   {"ring": [[0, 0], [500, 500], [500, 0], [0, 500]]},
   {"ring": [[0, 0], [100, 0], [100, 0], [0, 100]]}
  ],
  "offsets": [{"side": 9, "along": 5, "offset": 5}]
 },
 "survey": {"levels": [[1, 2]], "straightedges": [{"from": [5, 5], "to": [5, 5], "gap": 1}]},
 "board": {"lengths": [{"lenght": 1500}], "width": 145, "width": 145, "rise": 1e999},
 "gaps": {"side": 7, "sideRange": [8, 6]},
 "clips": {"perPiece": 1.5, "measure": "center"},
 "bond": {"angle": 999, "minRip": 146},
 "cut": {"kerf": null},
 "prices": {"fixing": "dear"},
 "colour": "blue"
}`;
  const list = found(loadJob(text, "many.job.json"));
  expect(list.map((one) => `${one.line} ${one.code} ${one.place}`)).toEqual([
    "3 unknownKey titel",
    "4 textPattern currency",
    "6 ringCrosses site.outline[2]",
    "7 wrongChoice site.sides[1]",
    "9 wrongType site.cutouts[0].ring[1][1]",
    "10 tooSmall site.cutouts[1].gap",
    "11 ringCrosses site.cutouts[2].ring[2]",
    "12 repeatedCorner site.cutouts[3].ring[2]",
    "14 offsetSide site.offsets[0].side",
    "16 tooFew survey.levels[0]",
    "16 straightedgeNoLength survey.straightedges[0]",
    "17 unknownKey board.lengths[0].lenght",
    "17 repeatedKey board.width",
    "17 notFinite board.rise",
    "18 moreThan gaps.sideRange",
    "19 notWhole clips.perPiece",
    "19 wrongChoice clips.measure",
    "20 tooGreat bond.angle",
    "20 moreThan bond.minRip",
    "21 wrongType cut.kerf",
    "22 wrongType prices.fixing",
    "23 unknownKey colour",
  ]);
});

test("a job of many readings is read in a moment", () => {
  const levels = Array.from({ length: 200_000 }, (_, i) => [(i % 500) * 100, Math.floor(i / 500) * 100, (i % 7) / 10]);
  const start = performance.now();
  const read = loadJob(
    job(
      {
        outline: [
          [0, 0],
          [50_000, 0],
          [50_000, 40_000],
          [0, 40_000],
        ],
        cutouts: circles.slice(0, 10).map((ring) => ({ ring })),
      },
      { survey: { levels } },
    ),
    "big",
  );
  const ms = performance.now() - start;
  console.log(`200,000 levels read and judged in ${ms.toFixed(0)} ms`);
  expect(read.ok).toBe(true);
  expect(ms).toBeLessThan(30_000);
});
