import { describe, expect, test } from "vitest";
import { loadJob } from "../../plan/load.ts";
import type { SurveyFinding } from "./findings.ts";

const BOARD = { lengths: [{ length: 1500 }], width: 145, rise: 25 };
type Place = readonly [number, number];
const load = (marks: string[], ties: unknown[], more: object = {}, site: object = {}) =>
  loadJob(
    JSON.stringify({
      format: "rowline/job@1",
      title: "t",
      board: BOARD,
      site: { marks, ...site },
      survey: { ties, ...more },
    }),
    "tape.job.json",
  );
const surveyOf = (...given: Parameters<typeof load>) => {
  const loaded = load(...given);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  const { survey } = loaded.value;
  return { ...survey, findings: survey.findings as SurveyFinding[] };
};
const problemsOf = (...given: Parameters<typeof load>) => {
  const loaded = load(...given);
  return loaded.ok ? [] : loaded.problems;
};
const away = (p: Place, q: Place): number => Math.sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2);
/** Whole millimetres, as a tape is read. */
const tiesOf = (places: Record<string, Place>, pairs: string[], slips: Record<string, number> = {}) =>
  pairs.map((pair) => {
    const [a, b] = [...pair] as [string, string];
    return [a, b, Math.round(away(places[a]!, places[b]!)) + (slips[pair] ?? 0)];
  });
const expectShape = (outline: readonly (readonly number[])[], places: Place[], withinMm: number): void => {
  expect(outline).toHaveLength(places.length);
  for (const [i, vertex] of outline.entries())
    expect(away([vertex[0]!, vertex[1]!], places[i]!)).toBeLessThan(withinMm);
};

/** An L-shaped courtyard, its first side along +x. */
const L: Record<string, Place> = {
  A: [0, 0],
  B: [6400, 0],
  C: [6412, 4190],
  D: [2395, 4205],
  E: [2408, 2597],
  F: [6, 2604],
};
/** Sides and short diagonals: four ties at every corner. */
const TWELVE = ["AB", "BC", "CD", "DE", "EF", "FA", "AC", "BD", "CE", "DF", "EA", "FB"];

describe("twelve ties on six marks", () => {
  test("give the shape, with deviations and no finding", () => {
    const survey = surveyOf([..."ABCDEF"], tiesOf(L, TWELVE));
    expectShape(survey.outline, Object.values(L), 2);
    expect(survey.findings).toEqual([]);
    expect(survey.adjustment!.redundancy).toBe(3);
    for (const mark of survey.adjustment!.marks) expect(mark.sigmaXMm).toBeLessThan(5);
    expect(survey.sides.map((side) => side.source)).toEqual([0, 1, 2, 3, 4, 5]);
  });

  test.each(TWELVE)("100 mm misread in %s is named, and the shape is right without it", (bad) => {
    for (const slip of [100, -100]) {
      const survey = surveyOf([..."ABCDEF"], tiesOf(L, TWELVE, { [bad]: slip }));
      const named = survey.findings.filter((one) => one.code === "tape");
      expect(named.map((one) => [one.level, one.data.from + one.data.to])).toEqual([["warn", bad]]);
      expect(Math.abs(named[0]!.data.off - slip)).toBeLessThan(12);
      expectShape(survey.outline, Object.values(L), 10);
      const ties = survey.adjustment!.ties;
      expect(ties.filter((tie) => tie.doubtful).map((tie) => tie.from + tie.to)).toEqual([bad]);
      expect(ties).toHaveLength(12);
      expect(survey.adjustment!.redundancy).toBe(2);
    }
  });
});

describe("a corner with three ties alone", () => {
  // nothing but D's own three ties speaks of D: whichever is wrong, the other two fit
  const LOOSE_D = ["AB", "BC", "CD", "DE", "EF", "FA", "AC", "AE", "BE", "BF", "CE", "DF"];
  test.each(["CD", "DE", "DF"])("a misread %s is among the suspects, and nothing is left out unsaid", (bad) => {
    for (const slip of [100, -100, 63]) {
      const survey = surveyOf([..."ABCDEF"], tiesOf(L, LOOSE_D, { [bad]: slip }));
      const found = survey.findings.find((one) => one.code === "tapeLikely" || one.code === "tapeContradict");
      expect(found?.data).toMatchObject({ suspects: ["C-D", "D-E", "D-F"] });
      const left = survey.adjustment!.ties.filter((tie) => tie.doubtful).map((tie) => tie.from + tie.to);
      expect(left).toEqual(found?.code === "tapeLikely" ? [found.data.from + found.data.to] : []);
      if (slip === 63) expect(left).not.toEqual([bad]);
    }
  });
  test("where it would be a whole decimetre and the others would not, it is called the likeliest", () => {
    const named = ["CD", "DE", "DF"].flatMap((bad) => {
      const { findings } = surveyOf([..."ABCDEF"], tiesOf(L, LOOSE_D, { [bad]: 100 }));
      return findings.flatMap((one) => (one.code === "tapeLikely" ? [[bad, one.data.from + one.data.to]] : []));
    });
    expect(named.length).toBeGreaterThan(0);
    for (const [bad, said] of named) expect(said).toBe(bad);
  });
});

describe("too few to tell which", () => {
  const SQUARE: Record<string, Place> = { A: [0, 0], B: [5000, 0], C: [5000, 4000], D: [0, 4000] };
  const ALL = ["AB", "BC", "CD", "DA", "AC", "BD"];
  test("one reading too many names none where the slip is no round figure, and leaves none out", () => {
    const survey = surveyOf([..."ABCD"], tiesOf(SQUARE, ALL, { AC: 63 }));
    const [finding] = survey.findings;
    expect(finding).toMatchObject({ code: "tapeContradict", level: "warn" });
    expect(survey.adjustment!.ties.every((tie) => !tie.doubtful)).toBe(true);
    if (finding?.code === "tapeContradict") expect(finding.data.suspects).toContain("A-C");
  });
  test("four sides and a diagonal leave two shapes, and no reading checked", () => {
    const dart: Record<string, Place> = { A: [0, 0], B: [5000, 0], C: [5200, 4100], D: [2500, 3000] };
    const survey = surveyOf([..."ABCD"], tiesOf(dart, ["AB", "BC", "CD", "DA", "AC"]));
    const codes = survey.findings.map((one) => one.code);
    expect(codes).toContain("tapeUncontrolled");
    expect(survey.adjustment!.s0).toBeNull();
    if (codes.includes("tapeMirror")) {
      const mirror = survey.findings.find((one) => one.code === "tapeMirror")!;
      expect([mirror.data.from, mirror.data.to].sort()).toEqual(["B", "D"]);
    }
  });
  test("a marks' shape whose mirror fits too says which tie decides", () => {
    // D lies inside the triangle of its image: both rings are simple
    const places: Record<string, Place> = { A: [0, 0], B: [6000, 0], C: [6000, 5000], D: [2000, 2600] };
    const survey = surveyOf([..."ABCD"], tiesOf(places, ["AB", "BC", "CD", "DA", "AC"]));
    expect(survey.findings.map((one) => one.code)).toContain("tapeMirror");
  });
});

describe("marks that hang loose", () => {
  test("four sides alone: the diagonal is asked for", () => {
    const found = problemsOf(
      [..."ABCD"],
      tiesOf({ A: [0, 0], B: [5000, 0], C: [5000, 4000], D: [0, 4000] }, ["AB", "BC", "CD", "DA"]),
    );
    expect(found.map((one) => one.code)).toEqual(["looseMark"]);
    expect(["A-C", "C-A", "B-D", "D-B"]).toContain(
      `${(found[0]!.data as { from: string }).from}-${(found[0]!.data as { to: string }).to}`,
    );
  });
  test("a mark with one tie is named, with a tie that would hold it", () => {
    const found = problemsOf(
      [..."ABCDEF"],
      tiesOf(
        L,
        TWELVE.filter((pair) => !["EF", "FB", "DF"].includes(pair)),
      ),
    );
    expect(found).toMatchObject([{ code: "looseMark", data: { mark: "F", from: "F", ties: 1 } }]);
  });
  test("the ties asked for are enough", () => {
    const ties = tiesOf(L, ["AB", "BC", "CD", "DE", "EF", "FA"]);
    const found = problemsOf([..."ABCDEF"], ties);
    expect(found).toHaveLength(3);
    const more = found.map((one) => (one.data as { from: string; to: string }).from + (one.data as { to: string }).to);
    expect(problemsOf([..."ABCDEF"], [...ties, ...tiesOf(L, more)]).filter((one) => one.code === "looseMark")).toEqual(
      [],
    );
  });
});

test("marks that run clockwise are known by the readings beside them, kept, and the ring is turned", () => {
  const below = Object.fromEntries(Object.entries(L).map(([name, [x, y]]) => [name, [x, -y] as Place]));
  const levels = [
    [1000, -1000, 0],
    [3000, -2000, 1],
    [5000, -3000, 2],
  ];
  const survey = surveyOf([..."ABCDEF"], tiesOf(below, TWELVE), { levels });
  expect(survey.findings.map((one) => one.code)).toEqual(["tapeClockwise"]);
  expect(survey.adjustment!.marks.map((mark) => Math.sign(Math.round(mark.yMm / 100)))).toEqual(
    [0, 0, -1, -1, -1, -1].map((one) => one + 0),
  );
  expect(survey.sides.map((side) => side.source)).toEqual([4, 3, 2, 1, 0, 5]);
  expect(survey.areaMm2).toBeGreaterThan(0);
});

test("a net without a single triangle is solved from many starts", () => {
  // K(3,3) on six corners
  const places: Record<string, Place> = {
    A: [0, 0],
    B: [5200, 300],
    C: [7000, 2500],
    D: [5600, 5200],
    E: [1500, 6100],
    F: [-900, 2800],
  };
  const pairs = ["AB", "AD", "AF", "CB", "CD", "CF", "EB", "ED", "EF"];
  const survey = surveyOf([..."ABCDEF"], tiesOf(places, pairs));
  for (const tie of survey.adjustment!.ties) expect(Math.abs(tie.residualMm)).toBeLessThan(3);
});

test("noisy tapes on many shapes: the truth lies within the deviations claimed", () => {
  let state = 12_345;
  const draw = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  const normal = (): number => Array.from({ length: 12 }, draw).reduce((sum, one) => sum + one, -6);
  let inside = 0;
  let all = 0;
  let alarms = 0;
  for (let run = 0; run < 60; run++) {
    const n = 5 + (run % 4);
    const names = Array.from({ length: n }, (_, i) => `M${i}`);
    const places = names.map((_, i): Place => {
      const [c, s] = [Math.cos((2 * Math.PI * i) / n), Math.sin((2 * Math.PI * i) / n)];
      const r = 3000 + 1500 * draw();
      return [r * c, r * s];
    });
    const ties: [string, string, number][] = [];
    for (let i = 0; i < n; i++)
      for (let j = i + 1; j < n; j++) ties.push([names[i]!, names[j]!, away(places[i]!, places[j]!) + 2 * normal()]);
    const survey = surveyOf(names, ties);
    alarms += survey.findings.length;
    survey.adjustment!.ties.forEach((tie) => {
      const truth = away(places[names.indexOf(tie.from)]!, places[names.indexOf(tie.to)]!);
      all++;
      if (Math.abs(tie.adjustedMm - truth) < 3 * Math.max(tie.sigmaMm, 1)) inside++;
    });
  }
  expect(inside / all).toBeGreaterThan(0.97);
  expect(alarms).toBeLessThan(6);
});
