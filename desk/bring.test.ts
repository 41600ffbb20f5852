import { expect, test } from "vitest";
import { bring } from "../words/en/app/bring.ts";
import { readSurveyFile } from "./bring.ts";

test("what a file holds, leaves out and does not say, in sentences and as JSON", () => {
  const { exit, lines, json } = readSurveyFile({ name: "a.csv", text: "1;2,5;3,5;0,1\ntorn\n" }, bring);
  expect([exit, lines]).toEqual([
    0,
    ["1 point with a height", "- 1 row of text", "Which figure comes first?", "What unit are the figures in?"],
  ]);
  expect(json).toMatchObject({ points: [{ a: 2.5, b: 3.5, h: 0.1, name: "1" }], settled: null });
  const refused = readSurveyFile({ name: "a.ifc", text: "ISO-10303-21;" }, bring);
  expect([refused.exit, refused.problems[0]]).toEqual([2, expect.stringMatching(/^a\.ifc: IFC is not read here/)]);
});
