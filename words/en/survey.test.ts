import { expect, test } from "vitest";
import { loadJob } from "../../core/plan/load.ts";
import { sayer } from "../say.ts";
import { en } from "./index.ts";
import { survey } from "./survey.ts";

type Place = readonly [number, number];
const OUTLINE = [
  [0, 0],
  [6400, 0],
  [6400, 4200],
  [0, 4200],
];
const SQUARE: Record<string, Place> = { A: [0, 0], B: [6400, 0], C: [6400, 4200], D: [0, 4200] };
const HEX: Record<string, Place> = {
  A: [0, 0],
  B: [5000, 0],
  C: [7500, 4300],
  D: [5000, 8600],
  E: [0, 8600],
  F: [-2500, 4300],
};
const HEX_TIES = ["AB", "BC", "CD", "DE", "EF", "FA", "AC", "BD", "CE", "DF", "EA", "FB"];

function findings(site: object, measured: object) {
  const job = {
    format: "rowline/job@1",
    title: "t",
    board: { lengths: [{ length: 1500 }], width: 145, rise: 25 },
    site,
    survey: measured,
  };
  const loaded = loadJob(JSON.stringify(job), "a");
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  return loaded.value.survey.findings;
}
function tape(places: Record<string, Place>, pairs: string[], slips: Record<string, number> = {}, more: object = {}) {
  const ties = pairs.map((pair) => {
    const [a, b] = [places[pair[0]!]!, places[pair[1]!]!];
    return [pair[0], pair[1], Math.round(Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2)) + (slips[pair] ?? 0)];
  });
  return findings({ marks: Object.keys(places) }, { ties, ...more });
}
const levels = (odd: number[][]): number[][] => {
  const out: number[][] = [];
  for (let x = 0; x <= 6400; x += 800)
    for (let y = 0; y <= 4200; y += 700) out.push([x, y, 50 + x / 100 + ((x + y) % 3)]);
  return [...out, ...odd];
};
const THREE_AT_F = HEX_TIES.filter((pair) => pair !== "DF");

test("every finding of the survey can come about, and is said whole", () => {
  const found = [
    ...tape(HEX, HEX_TIES, { AC: 100 }),
    ...[100, -100, 200, -200, 300].flatMap((slip) =>
      ["EF", "FA", "FB"].flatMap((pair) => tape(HEX, THREE_AT_F, { [pair]: slip })),
    ),
    ...tape(HEX, THREE_AT_F, { FB: 57 }),
    ...tape(SQUARE, ["AB", "BC", "CD", "DA", "AC"]),
    ...tape({ A: [0, 0], B: [6000, 0], C: [6000, 5000], D: [2000, 2600] }, ["AB", "BC", "CD", "DA", "AC"]),
    // D is held along one line only
    ...tape({ A: [0, 0], B: [6000, 0], C: [6000, 900], D: [3000, 60] }, ["AB", "BC", "AC", "DA", "BD"]),
    ...tape(
      { A: [0, 0], B: [6400, 0], C: [6400, -4200], D: [0, -4200] },
      ["AB", "BC", "CD", "DA", "AC", "BD"],
      {},
      { levels: [[3000, -2000, 0]] },
    ),
    ...findings({ outline: OUTLINE }, { ties: [["A", "B", 5]] }),
    ...findings(
      { outline: OUTLINE },
      {
        levels: levels([
          [800, 700, 99],
          [3000, 2000, 3500],
          [3100, 2100, 810],
          [-900, 100, 40],
          [900_000, 0, 5],
        ]),
      },
    ),
    ...findings(
      {
        outline: OUTLINE,
        keepClear: [
          {
            ring: [
              [9000, 0],
              [9100, 0],
              [9100, 100],
            ],
          },
        ],
        slab: [
          [10, 0],
          [6400, 0],
          [6400, 4200],
          [0, 4200],
        ],
      },
      {
        straightedges: [{ from: [-500, 0], to: [-500, 900], gap: 2 }],
      },
    ),
  ];
  expect([...new Set(found.map((one) => one.code))].sort()).toEqual(Object.keys(survey).sort());
  const say = sayer(en).finding;
  for (const one of found) {
    const said = say(one);
    for (const text of [said.says, said.do]) {
      expect(text).toMatch(/^[A-Z0-9].*[.]$/s);
      expect(text).not.toMatch(/undefined|NaN|\[object|error|invalid|oops/i);
    }
    expect(one.rule).toBe("survey");
  }
});
