import { type CheckResult, checkPlan } from "../core/check/check.ts";
import type { Job } from "../core/job/job.ts";
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

/**
 * Plans a loaded job and proves the plan by the checker. The plan's first line says what the checker excused.
 * A plan that does not stand is never given out as one that does: the other ways the job leaves open (where the joints
 * and the first row begin) are tried in a fixed order, and the first that is proved is taken and says so. Where none is,
 * the answer is the first plan with its breaches.
 */
export function proveJob(loaded: LoadedJob, words: Words, onStage: OnStage = () => {}, judge = checkPlan): Proved {
  return proveFrom(loaded, makePlan(loaded, onStage), words, onStage, judge);
}

/** The same from a first plan that is there already, as on a screen that shows it while it is being proved. */
export function proveFrom(
  loaded: LoadedJob,
  planned: PlanRecord,
  words: Words,
  onStage: OnStage = () => {},
  judge = checkPlan,
): Proved {
  const first = proveRecord(loaded, planned, words, onStage, judge);
  if (first.check.ok) return first;
  for (const bond of otherWays(loaded.read.job)) {
    const varied = { ...loaded, read: { ...loaded.read, job: { ...loaded.read.job, bond } } };
    const record = asChosen(makePlan(varied, onStage, first.record), loaded.read.job);
    const proved = proveRecord(loaded, record, words, onStage, judge);
    if (proved.check.ok) return proved;
  }
  return first;
}

/** Proves what was planned. Costs about as much again as planning. */
function proveRecord(
  loaded: LoadedJob,
  record: PlanRecord,
  words: Words,
  onStage: OnStage = () => {},
  judge = checkPlan,
): Proved {
  const draft = toPlanFile(record, sayer(words), "");
  onStage("check");
  const check = judge({ ...loaded.read, survey: loaded.survey }, draft, true);
  return { loaded, record, plan: { ...draft, summary: words.sayExcused(check.excused) }, check };
}

const SHIFTS = [0.5, 0.31, 0.73, 0.17];
const FIRST_ROWS = [0.8, 0.6, 0.95];

/** Beginnings of joints and rows beside those the planner would choose; none where the job gives both. */
function otherWays({ bond, board }: Job): Job["bond"][] {
  const longestMm = Math.max(...board.lengths.map(({ length }) => length));
  const ways: Job["bond"][] = [];
  const shifts = bond.shift === null && bond.kind !== "free" ? SHIFTS.map((part) => Math.round(part * longestMm)) : [];
  const rows =
    bond.firstRow === null && !bond.startAt && !bond.locked?.length
      ? FIRST_ROWS.map((part) => Math.round(part * board.width))
      : [];
  for (const shift of shifts) ways.push({ ...bond, shift });
  for (const firstRow of rows) ways.push({ ...bond, firstRow });
  for (const firstRow of rows) for (const shift of shifts.slice(0, 1)) ways.push({ ...bond, firstRow, shift });
  return ways;
}

/** The record with the job as it was read, and with reasons that say that another way was taken, not that the job asked. */
function asChosen(record: PlanRecord, job: Job): PlanRecord {
  const told = <R extends { reasons: PlanRecord["bond"]["reasons"] }>(stage: R): R => ({
    ...stage,
    reasons: stage.reasons.map((reason) => {
      if (reason.code === "shiftGiven" && job.bond.shift === null) return { ...reason, code: "shiftOther" };
      if (reason.code === "rowsGiven" && job.bond.firstRow === null) return { ...reason, code: "rowsOther" };
      return reason;
    }),
  });
  return { ...record, job, setout: told(record.setout), bond: told(record.bond) };
}
