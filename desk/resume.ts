import { hashJson } from "../core/job/hash.ts";
import { type LoadedJob, loadJob } from "../core/plan/load.ts";
import { gridOf } from "../core/plan/make.ts";
import type { PlanFile } from "../core/plan/plan.ts";
import { readPlan } from "../core/plan/schema.ts";
import { carryOver } from "../core/progress/carry.ts";
import { liveOf } from "../core/progress/change.ts";
import { driftOver } from "../core/progress/drift.ts";
import { neededFor } from "../core/progress/needed.ts";
import { readProgress } from "../core/progress/read.ts";
import { regrid } from "../core/progress/regrid.ts";
import { type Resumed, resumeJob } from "../core/progress/resume.ts";
import { findLaid, type Lying } from "../core/progress/same.ts";
import { readJson } from "../core/read/json.ts";
import type { Read } from "../core/read/problem.ts";
import type { Words } from "../words/words.ts";
import type { FontBytes } from "../write/font/files.ts";
import type { NamedText, Outcome } from "./outcome.ts";
import { deliver, type OnStage, proveJob } from "./plan.ts";
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
  const given = readAll(job, plan, progress);
  if (!given.ok) return refused(given.problems, words);
  const { resumed, old } = given.value;
  const now = settle(given.value);
  if (!now.ok) {
    const outcome = refused(now.problems, words);
    return { ...outcome, problems: [words.desk.resume.outlineBroken, ...outcome.problems] };
  }
  const { text, loaded, rowOf, settled } = now.value;
  const proved = proveJob(loaded, words, onStage);
  const lying = findLaid(resumed.kept.laid, proved.plan, rowOf);
  const rows = rowsLaid(proved.plan, lying);
  const outcome = await deliver(proved, words, fonts, onStage, new Set(rows.done));
  if (outcome.exit === 1) return outcome;
  const next = carryOver(liveOf(given.value.events), proved.plan, hashJson(proved.plan), lying.same, rowOf);
  const range = given.value.loaded.read.job.gaps.sideRange;
  const { kerf } = loaded.read.job.cut;
  const needed = neededFor(
    proved.plan,
    old,
    resumed.kept,
    resumed.state,
    lying.same,
    kerf,
    loaded.read.job.board.width,
  );
  const lastRow = old.rows.reduce((most, row) => Math.max(most, row.row), 0);
  const drift = driftOver(resumed.kept.drift, lastRow, old.bond.sideGap, range);
  const w = words.desk.resume;
  const others = lying.other.map(({ piece, now: there, offMm }) =>
    w.other(piece.id, piece.row, there?.id ?? null, offMm, words.write),
  );
  const { broken, holes } = resumed.state;
  const lines = [
    w.heading,
    w.laid(lying.same.size, proved.plan.pieces.length, rows.done.length, rows.begun),
    ...(lying.same.size > 0 && others.length === 0 ? [w.asLaid(lying.same.size)] : []),
    ...(settled ? [] : [w.rowsMoved]),
    ...others,
    ...w.needed(needed, words.write),
    ...(broken.pieces.size + broken.boards.size > 0 ? [w.spoilt([...broken.pieces], [...broken.boards])] : []),
    ...(drift ? w.drift(drift, range, words.write) : []),
    ...(holes.size > 0 ? [w.holes(holes.size)] : []),
  ];
  return {
    exit: others.length > 0 || !settled ? 3 : outcome.exit,
    lines: [...lines, "", ...outcome.lines],
    problems: [],
    json: {
      plan: proved.plan,
      job: loaded.read.raw,
      progress: next,
      resume: {
        laid: [...lying.same].map(([before, here]) => ({ before, now: here })),
        otherwise: lying.other.map(({ piece, now: there, offMm }) => ({
          before: piece.id,
          now: there?.id ?? null,
          offMm,
        })),
        rowsDone: rows.done,
        rowsBegun: rows.begun,
        needed,
        drift,
        changed: resumed.changed,
      },
    },
    files: [
      { name: NEW_JOB, bytes: text },
      { name: "progress.json", bytes: `${JSON.stringify(next, null, 1)}\n` },
      ...outcome.files,
    ],
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
