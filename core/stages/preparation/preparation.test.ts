import { expect, test } from "vitest";
import { baseJob, baseSurvey, gridLevels, rectangle, steadyNumbers } from "../../../fixtures/bases.ts";
import { preparationWhy, preparation as words } from "../../../words/en/preparation.ts";
import type { Finding } from "../../base/finding.ts";
import type { Job } from "../../job/job.ts";
import { judgeSurface } from "../surface/surface.ts";
import type { SurveyRecord } from "../survey/record.ts";
import { prepareBase } from "./preparation.ts";
import type { PreparationOption } from "./record.ts";

const away = ["wall", "open", "open", "open"] as const;
const prepare = (job: Job, survey: SurveyRecord) => prepareBase(job, survey, judgeSurface(job, survey));
const named = (options: PreparationOption[], name: string) => options.find((o) => o.option === name)!;

/** The base as it will be: every reading at its target height, judged again. */
function after(job: Job, survey: SurveyRecord, option: PreparationOption) {
  const levels = option.stakes.map((s) => ({ xMm: s.at[0], yMm: s.at[1], zMm: s.thenMm }));
  return judgeSurface(job, { ...survey, levels });
}

function expectHeld(job: Job, option: PreparationOption): void {
  const { grindMax, materials } = job.base.preparation;
  const thickest = Math.max(...materials.map((m) => m.max));
  for (const s of option.stakes) {
    expect(s.thenMm - s.nowMm).toBeCloseTo(s.changeMm, 9);
    expect(s.changeMm).toBeGreaterThanOrEqual(-grindMax - 0.01);
    expect(s.changeMm).toBeLessThanOrEqual(thickest + 0.01);
  }
  expect(Number.isInteger(option.costMinor)).toBe(true);
  const litres = option.materials.reduce((sum, m) => sum + m.litres, 0);
  expect(litres).toBeCloseTo(option.fillMm3 / 1e6, 9);
  const money = option.materials.reduce((sum, m) => sum + m.costMinor, 0);
  expect(option.costMinor).toBe(Math.round((option.grindMm3 / 1e6) * job.base.preparation.grindCost) + money);
}

test("a base that is right needs nothing; without levels there is nothing to prepare by", () => {
  const survey = baseSurvey(
    rectangle(4000, 3000),
    gridLevels(4000, 3000, 500, (_, y) => -0.02 * y),
    away,
  );
  const done = prepare(baseJob(), survey);
  expect(done.options).toHaveLength(1);
  expect(done.options[0]).toMatchObject({ option: "none", feasible: true, why: "asIs", costMinor: 0 });
  expect(done.chosen).toBe(0);
  expect(prepare(baseJob(), { ...survey, levels: [] })).toEqual({ options: [], chosen: null, findings: [] });
});

test("rough bases: what is chosen keeps every limit, and the base judged again after it is accepted", () => {
  const next = steadyNumbers(41);
  let patched = 0;
  let planes = 0;
  for (let round = 0; round < 14; round++) {
    const fall = round % 2 ? 0.025 : 0.012;
    const rough = 4 + 8 * next();
    const levels = gridLevels(3500, 3000, 500, (_, y) => -fall * y + rough * next());
    const survey = baseSurvey(rectangle(3500, 3000), levels, away);
    const job = baseJob();
    const before = judgeSurface(job, survey);
    if (before.surface!.verdict === "accept") continue;
    const { options, chosen } = prepare(job, survey);
    expect(chosen).not.toBeNull();
    for (const o of options.filter((o) => o.feasible)) {
      expectHeld(job, o);
      expect(o.costMinor).toBeGreaterThanOrEqual(options[chosen!]!.costMinor);
      const again = after(job, survey, o);
      const breaches = again.findings.filter((f) => f.rule !== "fallLocal" || o.option === "plane").map((f) => f.code);
      expect(breaches).toEqual([]);
      if (o.option === "patch") patched++;
      else planes++;
    }
  }
  expect(patched).toBeGreaterThan(2);
  expect(planes).toBeGreaterThan(5);
});

test("one plane: volumes in closed form", () => {
  // Level ground 4 x 2 m, 2 % wanted along 2 m: a wedge of 40 mm, less the 3 mm that may be ground at its foot.
  const job = baseJob({ preparation: { ...baseJob().base.preparation, grindMax: 0 } });
  const survey = baseSurvey(
    rectangle(4000, 2000),
    gridLevels(4000, 2000, 500, () => 0),
    away,
  );
  const plane = named(prepare(job, survey).options, "plane");
  expect(plane).toMatchObject({ feasible: true, why: "onePlane", grindMm3: 0 });
  expect(plane.fillMm3 / 1e6).toBeCloseTo((4 * 2 * 40) / 2, 4);
  expect(plane.planes[0]!.fall).toBeCloseTo(2, 6);
  expect(plane.planes[0]!.towards).toBeCloseTo(90, 6);
  expect(plane.materials[0]).toMatchObject({ name: "shaped mortar", bags: null });
  expect(plane.costMinor).toBe(160 * 3500);
});

test("40 mm of filling weighs 72 kg on each square metre, and a suspended base without a permitted load stops", () => {
  const hollow = (x: number) => (x >= 1500 && x <= 4500 ? -40 : 0);
  const survey = baseSurvey(
    rectangle(6000, 3000),
    gridLevels(6000, 3000, 500, (x, y) => hollow(x) - 0.02 * y),
    away,
  );
  const stopped = prepare(baseJob({ suspended: true }), survey);
  const pick = named(stopped.options, "plane");
  expect(pick.massPerM2Kg).toBeGreaterThan(60);
  expect(pick.massPerM2Kg).toBeLessThanOrEqual(72 + 1e-6);
  expect(stopped.findings.map((f) => [f.code, f.level, f.rule])).toContainEqual(["loadUnknown", "stop", "loadMax"]);
  const over = prepare(baseJob({ suspended: true, loadMax: 50 }), survey);
  expect(over.findings.map((f) => [f.code, f.level])).toContainEqual(["loadOver", "stop"]);
  expect(prepare(baseJob({ suspended: true, loadMax: 150 }), survey).findings.map((f) => f.rule)).not.toContain(
    "loadMax",
  );
  const said = { of: "load", by: "R. Novak", on: "2026-03-01", says: "150 kg/m2" } as const;
  expect(
    prepare(baseJob({ suspended: true, confirmed: [said] }), survey).findings.map((f) => [f.code, f.level]),
  ).toContainEqual(["loadConfirmed", "note"]);
  const flat = baseSurvey(
    rectangle(4000, 3000),
    gridLevels(4000, 3000, 500, (_, y) => -0.02 * y),
    away,
  );
  expect(prepare(baseJob({ suspended: true }), flat).findings.map((f) => [f.code, f.level])).toEqual([
    ["loadUnknown", "warn"],
  ]);
});

test("a ridge that is too flat becomes two planes that meet on it; one plane would be dearer or cannot be had", () => {
  const job = baseJob();
  const survey = baseSurvey(
    rectangle(8000, 4000),
    gridLevels(8000, 4000, 500, (x) => -0.012 * Math.abs(x - 4000)),
  );
  const { options, chosen } = prepare(job, survey);
  const roof = named(options, "facets");
  expect(roof).toMatchObject({ feasible: true, why: "ridgePlanes" });
  expectHeld(job, roof);
  const [a, b] = roof.planes;
  for (const y of [0, 4000]) expect(a!.a * 4000 + a!.b * y + a!.c).toBeCloseTo(b!.a * 4000 + b!.b * y + b!.c, 3);
  for (const p of roof.planes) expect(p.fall).toBeGreaterThanOrEqual(2);
  expect(options[chosen!]!.option).toBe("facets");
  expect(after(job, survey, roof).findings).toEqual([]);
});

test("pourable compound makes no fall; deep filling and deep grinding say why they cannot be had", () => {
  const pourable = [
    { name: "levelling compound", kind: "pourable" as const, min: 2, max: 30, cost: 900, density: 1.9, bag: 13 },
  ];
  const rough = baseSurvey(
    rectangle(3000, 2000),
    gridLevels(3000, 2000, 500, (x) => (x === 1500 ? 14 : 0)),
  );
  const prepared = { ...baseJob().base.preparation, materials: pourable };
  expect(named(prepare(baseJob({ preparation: prepared }), rough).options, "plane")).toMatchObject({
    feasible: false,
    why: "noMaterial",
  });
  const limits = { ...baseJob().base.limits, fallMin: 0, fallLocalMin: 0 };
  const level = named(prepare(baseJob({ preparation: prepared, limits }), rough).options, "plane");
  expect(level.feasible).toBe(true);
  expect(level.materials[0]!.bags).toBe(Math.ceil(level.fillMm3 / 1e6 / 13));
  // Six metres of 2 % is 120 mm: no material of 50 mm makes it.
  const long = baseSurvey(
    rectangle(6000, 6000),
    gridLevels(6000, 6000, 500, () => 0),
  );
  const none = prepare(baseJob(), long);
  expect(named(none.options, "plane").feasible).toBe(false);
  expect(none.chosen).toBeNull();
  expect(none.findings.map((f) => [f.code, f.level])).toContainEqual(["noPreparation", "stop"]);
});

test("heights at doors hold: the base rises there by no more than sill and leaf leave above the boards", () => {
  const job = baseJob();
  for (const [sill, opens, leafClear, room] of [
    [40, null, null, 15],
    [60, "out", 30, 5],
    [20, null, null, 0],
  ] as const) {
    const survey = baseSurvey(
      rectangle(4000, 1500),
      gridLevels(4000, 1500, 500, () => 0),
      ["door", "open", "open", "open"],
    );
    survey.sides[0] = { ...survey.sides[0]!, sill, opens, leafClear };
    const plane = named(prepare(job, survey).options, "plane");
    const most = Math.max(...plane.stakes.filter((s) => s.at[1] === 0).map((s) => s.changeMm));
    if (plane.feasible) expect(most).toBeLessThanOrEqual(room + 0.01);
    else expect(["doorTooLow", "fallNotHad", "fillTooThick", "grindTooDeep", "houseward"]).toContain(plane.why);
  }
  // 15 mm at the door and 3 mm of grinding leave 18 mm over 1500 mm: 1.2 %, so 2 % away from the door cannot be had,
  // but along it can.
  const survey = baseSurvey(
    rectangle(800, 1500),
    gridLevels(800, 1500, 100, () => 0),
    ["door", "open", "open", "open"],
  );
  survey.sides[0] = { ...survey.sides[0]!, sill: 40 };
  const plane = named(prepare(job, survey).options, "plane");
  expect(plane.feasible).toBe(true);
  expect(Math.max(...plane.stakes.filter((s) => s.at[1] === 0).map((s) => s.changeMm))).toBeLessThanOrEqual(15.01);
});

test("walls all round: it can be had, and says that water runs towards a wall", () => {
  const walls = baseSurvey(
    rectangle(2000, 2000),
    gridLevels(2000, 2000, 500, () => 0),
    ["wall"],
    [
      {
        name: "gully",
        gapMm: 5,
        height: "removable",
        ring: [
          [900, 900, 0],
          [1100, 900, 0],
          [1100, 1100, 0],
          [900, 1100, 0],
        ],
      },
    ],
  );
  expect(named(prepare(baseJob(), walls).options, "plane")).toMatchObject({ feasible: true, why: "houseward" });
});

test("the same base, the same bytes; every finding and every reason has its words", () => {
  const survey = baseSurvey(
    rectangle(3500, 3000),
    gridLevels(3500, 3000, 500, (x, y) => -0.02 * y + ((x * 7 + y * 3) % 11)),
    away,
  );
  const once = prepare(baseJob({ suspended: true }), survey);
  expect(JSON.stringify(prepare(baseJob({ suspended: true }), survey))).toBe(JSON.stringify(once));
  const write = {
    mm: String,
    mm1: String,
    m2: String,
    percent: (v: number) => `${v} %`,
    number: (v: number) => String(v),
    money: (v: number) => String(v),
  };
  for (const f of once.findings) {
    const said = (
      words[f.code as keyof typeof words] as (d: unknown, f: Finding, w: typeof write) => { says: string; do: string }
    )(f.data, f, write);
    expect(said.says + said.do).not.toMatch(/undefined|NaN/);
  }
  for (const o of once.options) expect(preparationWhy[o.why as keyof typeof preparationWhy]).toBeDefined();
});
