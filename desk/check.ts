import { checkPlan } from "../core/check/check.ts";
import { loadJob } from "../core/plan/load.ts";
import { readPlan } from "../core/plan/schema.ts";
import type { Words } from "../words/words.ts";
import type { NamedText, Outcome } from "./outcome.ts";
import { refused } from "./problems.ts";

/** `rowline check`: proves a plan file again from the two files alone. A plan that does not hold is wrong input: exit 2. */
export function checkFiles(job: NamedText, plan: NamedText, words: Words): Outcome {
  const loaded = loadJob(job.text, job.name);
  const read = readPlan(plan.text, plan.name);
  if (!loaded.ok || !read.ok)
    return refused([...(loaded.ok ? [] : loaded.problems), ...(read.ok ? [] : read.problems)], words);
  const check = checkPlan({ ...loaded.value.read, survey: loaded.value.survey }, read.value);
  const stops = read.value.findings.filter((finding) => finding.level === "stop");
  return {
    exit: check.ok ? (stops.length > 0 ? 3 : 0) : 2,
    lines: check.ok
      ? [words.desk.proved, words.sayExcused(check.excused), ...stops.map((finding) => `${finding.says} ${finding.do}`)]
      : [],
    problems: check.ok ? [] : [words.desk.notProved(check.counts.breaches), ...check.breaches.map(words.sayBreach)],
    json: check,
    files: [],
  };
}
