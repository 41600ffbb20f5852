import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { hashJson } from "../../../core/job/hash.ts";
import { loadJob } from "../../../core/plan/load.ts";
import { proveJob } from "../../../desk/prove.ts";
import { en } from "../../../words/en/index.ts";
import { drawAsk, newBench, planAsk, proofAsk, readAsk, replacedAsk } from "./work.ts";

const EXAMPLE = readFileSync(new URL("../../../examples/courtyard.job.json", import.meta.url), "utf8");
const draw = { name: "setout", scale: 50, turnDeg: 0 } as const;
const ask = (text: string) => ({ kind: "plan", text, file: "job", language: "en", draw }) as const;

test("the screen's plan, once proved, is the command line's plan", () => {
  const bench = newBench();
  const stages: string[] = [];
  const answer = planAsk(bench, ask(EXAMPLE), en, (stage) => stages.push(stage));
  if (!answer.ok) throw new Error("no plan");
  expect(answer).toMatchObject({ checked: false, proved: false });
  expect(answer.drawing!.items.length).toBeGreaterThan(100);
  expect(stages[0]).toBe("read");
  expect(stages).toContain("fixing");
  const loaded = loadJob(EXAMPLE, "job");
  if (!loaded.ok) throw new Error("does not load");
  const { plan, check } = proveJob(loaded.value, en);
  expect(proofAsk(bench)).toMatchObject({
    checked: true,
    proved: check.ok,
    summary: plan.summary,
    planHash: hashJson(JSON.parse(JSON.stringify(plan))),
  });
  expect(replacedAsk(bench, draw)).toBeNull();
  expect(answer.findings.length).toBe(plan.findings.length);
});

test("where another way had to be taken, its plan replaces the first with a drawing of its own", () => {
  const bench = newBench();
  const answer = planAsk(bench, ask(EXAMPLE), en, () => {});
  if (!answer.ok) throw new Error("no plan");
  const proved = bench.proved!;
  bench.planned!.proved = { ...proved, record: { ...proved.record } };
  const other = replacedAsk(bench, draw);
  expect(other).toMatchObject({ ok: true, checked: false });
  expect(bench.planned!.record).toBe(bench.planned!.proved!.record);
  expect(replacedAsk(bench, draw)).toBeNull();
});

test("a job that cannot be planned is answered with sentences, and leaves the last plan to be drawn", () => {
  const bench = newBench();
  planAsk(bench, ask(EXAMPLE), en, () => {});
  const crossed = JSON.stringify({
    ...JSON.parse(EXAMPLE),
    site: {
      outline: [
        [0, 0],
        [4000, 3000],
        [4000, 0],
        [0, 3000],
      ],
    },
  });
  const answer = planAsk(bench, ask(crossed), en, () => {});
  if (answer.ok) throw new Error("was planned");
  expect(answer.problems[0]!.says.length).toBeGreaterThan(10);
  expect(answer.problems[0]!.place).toContain("outline");
  expect(readAsk(crossed, "x.job.json", en)).toEqual(answer.problems);
  expect(readAsk(EXAMPLE, "x.job.json", en)).toEqual([]);
  expect(drawAsk(bench, { kind: "draw", draw: { ...draw, name: "fixing" } }).items.length).toBeGreaterThan(100);
});
