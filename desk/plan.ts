import { loadJob } from "../core/plan/load.ts";
import { summaryText } from "../papers/summary.ts";
import type { Words } from "../words/words.ts";
import type { FontBytes } from "../write/font/files.ts";
import type { NamedText, Outcome } from "./outcome.ts";
import { writePapers } from "./papers.ts";
import { refused } from "./problems.ts";
import { type OnStage, type Proved, proveJob } from "./prove.ts";

export { type OnStage, type Proved, proveJob } from "./prove.ts";

/** `rowline plan`: a job's text in; the plan, every paper and a summary out. An unproved plan is never given out. */
export async function planJob(
  job: NamedText,
  words: Words,
  fonts: FontBytes,
  onStage: OnStage = () => {},
): Promise<Outcome> {
  const read = loadJob(job.text, job.name);
  if (!read.ok) return refused(read.problems, words);
  return deliver(proveJob(read.value, words, onStage), words, fonts, onStage);
}

/** A proved plan with its papers. `finished`: rows that need no card any more. Without a proof nothing is given out. */
export async function deliver(
  proved: Proved,
  words: Words,
  fonts: FontBytes,
  onStage: OnStage,
  finished: ReadonlySet<number> = new Set(),
): Promise<Outcome> {
  const { record, plan, check } = proved;
  if (!check.ok)
    return {
      exit: 1,
      lines: [],
      problems: [words.desk.unproved, ...check.breaches.map(words.sayBreach)],
      json: { ok: false, breaches: check.breaches },
      files: [],
    };
  onStage("papers");
  return {
    exit: plan.findings.some((finding) => finding.level === "stop") ? 3 : 0,
    lines: [...summaryText(record, words, plan.summary), "", words.desk.papersLie],
    problems: [],
    json: plan,
    files: await writePapers(record, plan, words, fonts, finished),
  };
}
