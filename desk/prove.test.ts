import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { checkPlan } from "../core/check/check.ts";
import { loadJob } from "../core/plan/load.ts";
import { en } from "../words/en/index.ts";
import { proveJob } from "./prove.ts";

const file = new URL("../fixtures/jobs/downpipe-corner.job.json", import.meta.url);
const loaded = loadJob(readFileSync(file, "utf8"), "downpipe-corner.job.json");
if (!loaded.ok) throw new Error("the fixture does not load");

/** A judge that refuses its first n plans whatever they are, then judges for real. */
function refusing(n: number): typeof checkPlan {
  let left = n;
  return (job, plan, draft) => {
    const result = checkPlan(job, plan, draft);
    return left-- > 0 ? { ...result, ok: false } : result;
  };
}

test("a plan that stands is the planner's first choice", () => {
  const { check, plan } = proveJob(loaded.value, en, () => {}, refusing(0));
  expect(check.ok).toBe(true);
  expect(plan.reasons.map(({ code }) => code)).not.toContain("shiftOther");
});

test("where the first does not stand, another way is proved, says so, and keeps the job as read", () => {
  const { check, plan, record } = proveJob(loaded.value, en, () => {}, refusing(1));
  expect(check.ok).toBe(true);
  expect(plan.reasons.map(({ code }) => code)).toContain("shiftOther");
  expect(record.job).toBe(loaded.value.read.job);
  expect(plan.job).toBe(loaded.value.read.hash);
  // the second look at the same plan, by a judge that refuses nothing, agrees
  expect(checkPlan({ ...loaded.value.read, survey: loaded.value.survey }, plan).ok).toBe(true);
});

test("a plan that no way can prove comes back refused, never as proved", () => {
  const { check } = proveJob(loaded.value, en, () => {}, refusing(1000));
  expect(check.ok).toBe(false);
});

test("what the job gives is never varied", () => {
  const text = JSON.parse(readFileSync(file, "utf8"));
  const given = loadJob(JSON.stringify({ ...text, bond: { shift: 700, firstRow: 145 } }), "given");
  if (!given.ok) throw new Error("does not load");
  let judged = 0;
  proveJob(
    given.value,
    en,
    () => {},
    (job, plan, draft) => {
      judged++;
      return { ...checkPlan(job, plan, draft), ok: false };
    },
  );
  expect(judged).toBe(1);
});
