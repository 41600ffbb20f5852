import { expect, test } from "vitest";
import { loadJob } from "../plan/load.ts";
import { makePlan } from "../plan/make.ts";
import type { PlanFile } from "../plan/plan.ts";
import { toPlanFile } from "../plan/write.ts";
import { checkPlan } from "./check.ts";
import type { SceneInput } from "./scene.ts";
import { SPOILS, type Spoil } from "./spoils.ts";

/** An L-shaped yard with a post, a gully, a door, a no-drill area and ripped rows; invented. */
const yard = {
  format: "rowline/job@1",
  title: "Yard to be spoilt",
  currency: "EUR",
  site: {
    outline: [
      [0, 0],
      [4830, 0],
      [4830, 2400],
      [2900, 2400],
      [2900, 3460],
      [0, 3460],
    ],
    sides: ["wall", "open", "wall", "wall", "wall", { kind: "door", sill: 60, opens: "in", leafClear: 40 }],
    cutouts: [
      {
        name: "post",
        ring: [
          [3600, 1180],
          [3700, 1180],
          [3700, 1280],
          [3600, 1280],
        ],
        gap: 5,
        height: "tall",
      },
    ],
    noDrill: [
      {
        name: "loop",
        ring: [
          [1350, 1350],
          [1650, 1350],
          [1650, 1650],
          [1350, 1650],
        ],
      },
    ],
  },
  base: { kind: "concrete", membrane: false, heating: false, tendons: false },
  board: { name: "board", lengths: [{ length: 1500, price: 2100, pack: 1, stock: null }], width: 145, rise: 25 },
  gaps: { side: 5, sideRange: [5, 5], end: 5, edge: 10 },
  bond: { angle: 0, kind: "half" },
  trim: { length: 2400, price: 1450, leg: 40, thickness: 2 },
};
const free = { ...yard, bond: { angle: 0, kind: "free" }, site: { ...yard.site, noDrill: [], cutouts: [] } };
/** A slab surveyed at 800 mm with a dip, and a membrane nobody knows of. */
const rough = {
  ...yard,
  base: { kind: "concrete", membrane: "unknown", heating: false, tendons: false },
  survey: {
    levels: Array.from({ length: 28 }, (_, i) => [
      (i % 7) * 800,
      Math.floor(i / 7) * 800,
      -0.02 * (i % 7) * 800 - (i === 10 ? 4 : 0) + (i % 3),
    ]).filter(([x, y]) => x! <= 2800 || y! <= 2400),
  },
};

const made = new Map<Spoil["on"], { job: SceneInput; text: string }>();
for (const [name, raw] of Object.entries({ yard, free, rough }) as [Spoil["on"], unknown][]) {
  const loaded = loadJob(JSON.stringify(raw), `${name}.job.json`);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  const { read, survey } = loaded.value;
  const job = { raw: read.raw, job: read.job, hash: read.hash, survey };
  const plan = toPlanFile(
    makePlan(loaded.value),
    { finding: (f) => ({ says: f.code, do: "" }), reason: (r) => r.code },
    "",
  );
  const excused = checkPlan(job, plan, true).excused.length;
  plan.summary = `${excused} excused`;
  made.set(name, { job, text: JSON.stringify(plan) });
}

test.each([...made.keys()])("the plan of %s stands before it is spoilt", (name) => {
  const { job, text } = made.get(name)!;
  const result = checkPlan(job, JSON.parse(text) as PlanFile);
  expect(result.breaches).toEqual([]);
  expect(result.ok).toBe(true);
});

test("a plan that hides its excuses is refused", () => {
  const name = [...made.keys()].find(
    (key) => checkPlan(made.get(key)!.job, JSON.parse(made.get(key)!.text) as PlanFile).excused.length > 0,
  )!;
  const { job, text } = made.get(name)!;
  const plan = JSON.parse(text) as PlanFile;
  plan.summary = "Nothing is excused.";
  expect(checkPlan(job, plan).breaches.map((b) => b.rule)).toContain("findings");
});

test.each(SPOILS)("refuses: $name", ({ on, rule, spoil }) => {
  const { job, text } = made.get(on)!;
  const plan = JSON.parse(text) as PlanFile;
  spoil(plan);
  expect(JSON.stringify(plan)).not.toBe(text);
  const result = checkPlan(job, plan);
  expect(result.ok).toBe(false);
  expect(result.breaches.map((b) => b.rule)).toContain(rule);
});
