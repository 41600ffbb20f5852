import { type CheckResult, checkPlan } from "../core/check/check.ts";
import { type LoadedJob, loadJob } from "../core/plan/load.ts";
import { makePlan, type StageName } from "../core/plan/make.ts";
import type { PlanFile } from "../core/plan/plan.ts";
import type { PlanRecord } from "../core/plan/record.ts";
import { toPlanFile } from "../core/plan/write.ts";
import { summaryText } from "../papers/summary.ts";
import { sayer } from "../words/say.ts";
import type { Words } from "../words/words.ts";
import type { FontBytes } from "../write/font/files.ts";
import type { NamedText, Outcome } from "./outcome.ts";
import { writePapers } from "./papers.ts";
import { refused } from "./problems.ts";

export interface Proved {
  loaded: LoadedJob;
  record: PlanRecord;
  plan: PlanFile;
  check: CheckResult;
}
export type OnStage = (stage: StageName | "check" | "papers") => void;

/** Plans a loaded job and proves the plan by the checker. The plan's first line says what the checker excused. */
export function proveJob(loaded: LoadedJob, words: Words, onStage: OnStage = () => {}): Proved {
  return proveRecord(loaded, makePlan(loaded, onStage), words, onStage);
}

function proveRecord(loaded: LoadedJob, record: PlanRecord, words: Words, onStage: OnStage): Proved {
  const draft = toPlanFile(record, sayer(words), "");
  onStage("check");
  const check = checkPlan({ ...loaded.read, survey: loaded.survey }, draft, true);
  return { loaded, record, plan: { ...draft, summary: words.sayExcused(check.excused) }, check };
}

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
