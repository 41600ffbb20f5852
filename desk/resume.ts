import { hashJson } from "../core/job/hash.ts";
import { type LoadedJob, loadJob } from "../core/plan/load.ts";
import { gridOf } from "../core/plan/make.ts";
import type { PlanFile } from "../core/plan/plan.ts";
import { readPlan } from "../core/plan/schema.ts";
import { carryOver } from "../core/progress/carry.ts";
import { liveOf } from "../core/progress/change.ts";
import { type Drift, driftOver } from "../core/progress/drift.ts";
import { type Needed, neededFor } from "../core/progress/needed.ts";
import { readProgress } from "../core/progress/read.ts";
import { regrid } from "../core/progress/regrid.ts";
import { type Resumed, resumeJob } from "../core/progress/resume.ts";
import { findLaid, type Lying } from "../core/progress/same.ts";
import type { ProgressFile } from "../core/progress/schema.ts";
import { readJson } from "../core/read/json.ts";
import type { Read } from "../core/read/problem.ts";
import type { Words } from "../words/words.ts";
import type { FontBytes } from "../write/font/files.ts";
import type { NamedText, Outcome } from "./outcome.ts";
import { deliver, type OnStage, type Proved, proveJob } from "./plan.ts";
import { refused } from "./problems.ts";

const NEW_JOB = "resumed.job.json";
/** Set-outs tried until the rows lie where they lay: one finds the miss, one more mends it. */
const TRIES = 4;

/**
 * `rowline resume`: keeps what is laid as it was laid and plans the rest, from what was measured since. Writes the job
 * as it now stands and the progress under the new plan's names beside the new plan, so that the checker can prove the
 * plan and the crew can go on from the three. A piece that lies and that the new plan draws otherwise is a stop.
 */
export async function resumeFiles(
  job: NamedText,
  plan: NamedText,
  progress: NamedText,
  words: Words,
  fonts: FontBytes,
  onStage: OnStage = () => {},
): Promise<Outcome> {
  const result = resumeProved(job, plan, progress, words, onStage);
  if (!result.ok) return result.refusal;
  const { proved, jobText, progress: next, lines, stop, finished, answer } = result.value;
  const outcome = await deliver(proved, words, fonts, onStage, finished);
  if (outcome.exit === 1) return outcome;
  return {
    exit: stop ? 3 : outcome.exit,
    lines: [...lines, "", ...outcome.lines],
    problems: [],
    json: answer,
    files: [
      { name: NEW_JOB, bytes: jobText },
      { name: "progress.json", bytes: `${JSON.stringify(next, null, 1)}\n` },
      ...outcome.files,
    ],
  };
}

export interface ResumedPlan {
  proved: Proved;
  /** The new job file. */
  jobText: string;
  /** The progress file of the new plan. */
  progress: ProgressFile;
  lines: string[];
  /** A piece that lies is drawn otherwise, or the rows could not be put back. */
  stop: boolean;
  /** Rows of the new plan that lie whole. */
  finished: ReadonlySet<number>;
  answer: ResumeAnswer;
}
/** The machine form. Ids as in the plan worked from (`before`) and in the new one (`now`); rows in the new one; mm. */
export interface ResumeAnswer {
  plan: PlanFile;
  job: unknown;
  progress: ProgressFile;
  resume: {
    laid: { before: string; now: string }[];
    otherwise: { before: string; now: string | null; offMm: number | null }[];
    rowsDone: number[];
    rowsBegun: number[];
    needed: Needed;
    drift: Drift | null;
    changed: string[];
  };
}

/** The same without papers: the new plan, proved or not (`proved.check`), and what is to be said. */
export function resumeProved(
  job: NamedText,
  plan: NamedText,
  progress: NamedText,
  words: Words,
  onStage: OnStage = () => {},
): { ok: true; value: ResumedPlan } | { ok: false; refusal: Outcome } {
  const given = readAll(job, plan, progress);
  if (!given.ok) return { ok: false, refusal: refused(given.problems, words) };
  const { resumed, old, events, loaded: before } = given.value;
  const now = settle(given.value);
  if (!now.ok) {
    const refusal = refused(now.problems, words);
    return { ok: false, refusal: { ...refusal, problems: [words.desk.resume.outlineBroken, ...refusal.problems] } };
  }
  const { text, loaded, rowOf, settled } = now.value;
  const { job: read, raw } = loaded.read;
  const proved = proveJob(loaded, words, onStage);
  const lying = findLaid(resumed.kept.laid, proved.plan, rowOf);
  const rows = rowsLaid(proved.plan, lying);
  const next = carryOver(liveOf(events), proved.plan, hashJson(proved.plan), lying.same, rowOf);
  const needed = neededFor(proved.plan, old, resumed.kept, resumed.state, lying.same, read.cut.kerf, read.board.width);
  const range = before.read.job.gaps.sideRange;
  const lastRow = old.rows.reduce((most, row) => Math.max(most, row.row), 0);
  const drift = driftOver(resumed.kept.drift, lastRow, old.bond.sideGap, range);
  const otherwise = lying.other.map(({ piece, now: there, offMm }) => ({
    before: piece.id,
    row: piece.row,
    now: there?.id ?? null,
    offMm,
  }));
  const w = words.desk.resume;
  const { broken, holes } = resumed.state;
  const lines = [
    w.heading,
    w.laid(lying.same.size, proved.plan.pieces.length, rows.done.length, rows.begun),
    ...(lying.same.size > 0 && otherwise.length === 0 ? [w.asLaid(lying.same.size)] : []),
    ...(settled ? [] : [w.rowsMoved]),
    ...(otherwise.length > 0 ? [w.otherwise(otherwise, words.write)] : []),
    ...w.needed(needed, words.write),
    ...(broken.pieces.size + broken.boards.size > 0 ? [w.spoilt([...broken.pieces], [...broken.boards])] : []),
    ...(drift ? w.drift(drift, range, words.write) : []),
    ...(holes.size > 0 ? [w.holes(holes.size)] : []),
  ];
  return {
    ok: true,
    value: {
      proved,
      jobText: text,
      progress: next,
      lines,
      stop: otherwise.length > 0 || !settled,
      finished: new Set(rows.done),
      answer: {
        plan: proved.plan,
        job: raw,
        progress: next,
        resume: {
          laid: [...lying.same].map(([was, here]) => ({ before: was, now: here })),
          otherwise: otherwise.map(({ row: _row, ...one }) => one),
          rowsDone: rows.done,
          rowsBegun: rows.begun,
          needed,
          drift,
          changed: resumed.changed,
        },
      },
    },
  };
}

interface Given {
  loaded: LoadedJob;
  old: PlanFile;
  resumed: Resumed;
  events: Parameters<typeof liveOf>[0];
}

/** The three files; what is wrong with each, and with what they say of one another, all at once. */
function readAll(job: NamedText, plan: NamedText, progress: NamedText): Read<Given> {
  const loaded = loadJob(job.text, job.name);
  const old = readPlan(plan.text, plan.name);
  const done = readProgress(progress.text, progress.name);
  const problems = [loaded, old, done].flatMap((read) => (read.ok ? [] : read.problems));
  if (loaded.ok && old.ok && old.value.job !== loaded.value.read.hash) {
    const data = { found: old.value.job, expected: loaded.value.read.hash };
    problems.push(...readJson(plan.text, plan.name).place([{ path: ["job"], code: "otherJob", data }]));
  }
  if (!loaded.ok || !old.ok || !done.ok) return { ok: false, problems };
  const { read, survey } = loaded.value;
  const resumed = resumeJob(read, survey, old.value, hashJson(old.value), done.value);
  if (!resumed.ok) problems.push(...readJson(progress.text, progress.name).place(resumed.problems));
  if (!resumed.ok || problems.length > 0) return { ok: false, problems };
  return {
    ok: true,
    value: { loaded: loaded.value, old: old.value, resumed: resumed.value, events: done.value.events },
  };
}

interface Settled {
  /** The new job file. */
  text: string;
  loaded: LoadedJob;
  rowOf: Map<number, number>;
  settled: boolean;
}

/** The new job with its rows where they lay, whatever the walls did to the frame. At most TRIES set-outs. */
function settle({ loaded: before, old, resumed }: Given): Read<Settled> {
  const stays = new Set([...resumed.kept.rows, ...(before.read.job.bond.locked ?? [])].map((row) => row.row));
  let raw = resumed.raw;
  let rowOf = new Map<number, number>();
  let settled = false;
  for (let i = 0; i < TRIES && !settled; i++) {
    const loaded = loadJob(textOf(raw), NEW_JOB);
    if (!loaded.ok) return loaded;
    const found = regrid(raw, loaded.value.read.job, old, gridOf(loaded.value), stays);
    ({ raw, rowOf, settled } = found);
  }
  const text = textOf(raw);
  const loaded = loadJob(text, NEW_JOB);
  return loaded.ok ? { ok: true, value: { text, loaded: loaded.value, rowOf, settled } } : loaded;
}

function textOf(raw: unknown): string {
  return `${JSON.stringify(raw, null, 1)}\n`;
}

/** Rows all of whose pieces lie, and rows where some do, in the new plan. */
function rowsLaid(plan: PlanFile, lying: Lying): { done: number[]; begun: number[] } {
  const laid = new Set(lying.same.values());
  const done: number[] = [];
  const begun: number[] = [];
  for (const { row, pieces } of plan.rows) {
    const count = pieces.filter((id) => laid.has(id)).length;
    if (count > 0) (count === pieces.length ? done : begun).push(row);
  }
  return { done, begun };
}
