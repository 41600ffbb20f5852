/**
 * Rowline as a library: a job's text in; a proved plan, papers and files out. Pure: no file, clock or network, so it runs
 * in Node, in a browser and in a worker alike.
 *
 * ```ts
 * const read = loadJob(text, "job.json");
 * if (read.ok) {
 *   const { record, plan, check } = proveJob(read.value, en);
 *   for (const paper of papersOf(record, en, plan.summary)) writeSvg(paper.sheets[0]);
 * }
 * ```
 */
export { LIMITS } from "./core/base/limits.ts";
export { TOLERANCE } from "./core/base/tolerances.ts";
export { type Breach, type CheckResult, checkPlan } from "./core/check/check.ts";
export type { Job } from "./core/job/job.ts";
export { exportJobSchema } from "./core/job/schema.ts";
export { type LoadedJob, loadJob } from "./core/plan/load.ts";
export { makePlan, STAGES, type StageName } from "./core/plan/make.ts";
export type { PlanFile } from "./core/plan/plan.ts";
export type { PlanRecord } from "./core/plan/record.ts";
export { exportPlanSchema, readPlan } from "./core/plan/schema.ts";
export { toPlanFile } from "./core/plan/write.ts";
export { readProgress } from "./core/progress/read.ts";
export { exportProgressSchema, type ProgressEvent, type ProgressFile } from "./core/progress/schema.ts";
export type { Problem, Read } from "./core/read/problem.ts";
export { judgeBase } from "./desk/base.ts";
export { checkFiles } from "./desk/check.ts";
export type { NamedText, Outcome, OutFile } from "./desk/outcome.ts";
export { gridsOf, papersOf, planText, writePapers } from "./desk/papers.ts";
export { type Proved, planJob, proveJob } from "./desk/plan.ts";
export { resumeFiles } from "./desk/resume.ts";
export { printSchema } from "./desk/schema.ts";
export type { Item, Paper, Sheet, View } from "./papers/sheet.ts";
export { en } from "./words/en/index.ts";
export { sayer } from "./words/say.ts";
export type { Words } from "./words/words.ts";
export { writeCsv } from "./write/csv.ts";
export { writeDxf } from "./write/dxf.ts";
export { FONT_FILES, type FontBytes } from "./write/font/files.ts";
export { writePdf } from "./write/pdf.ts";
export { writeSvg } from "./write/svg.ts";
export { writeXlsx } from "./write/xlsx.ts";
