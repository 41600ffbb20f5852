import { type CheckResult, checkPlan } from "../core/check/check.ts";
import type { LoadedJob } from "../core/plan/load.ts";
import { makePlan, type StageName } from "../core/plan/make.ts";
import type { PlanFile } from "../core/plan/plan.ts";
import type { PlanRecord } from "../core/plan/record.ts";
import { toPlanFile } from "../core/plan/write.ts";
import { sayer } from "../words/say.ts";
import type { Words } from "../words/words.ts";

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

/** Proves what was planned. Costs about as much again as planning. */
export function proveRecord(loaded: LoadedJob, record: PlanRecord, words: Words, onStage: OnStage = () => {}): Proved {
  const draft = toPlanFile(record, sayer(words), "");
  onStage("check");
  const check = checkPlan({ ...loaded.read, survey: loaded.survey }, draft, true);
  return { loaded, record, plan: { ...draft, summary: words.sayExcused(check.excused) }, check };
}
