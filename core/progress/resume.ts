import { UM_PER_MM } from "../base/units.ts";
import { frameAt, toSite } from "../geometry/frame.ts";
import type { JobRead } from "../job/read.ts";
import type { PlanFile } from "../plan/plan.ts";
import type { PathProblem } from "../read/problem.ts";
import type { SurveyRecord } from "../stages/survey/record.ts";
import { checkAgainstPlan } from "./against.ts";
import { liveOf } from "./change.ts";
import { type Kept, keptOf } from "./kept.ts";
import type { ProgressFile } from "./schema.ts";
import { type ProgressState, stateOf } from "./state.ts";
import { remeasure } from "./walls.ts";

export interface Resumed {
  state: ProgressState;
  /** What planning again must leave as it is. */
  kept: Kept;
  /** The job to plan from now, as a job file: levels and walls as measured since, stock less what is spoilt, the grid pinned. */
  raw: Record<string, unknown>;
  /** Paths of the job that were changed. */
  changed: string[];
}
export type ResumeResult = { ok: true; value: Resumed } | { ok: false; problems: PathProblem[] };

/**
 * What is needed to plan the rest of a job that is begun. The pieces that lie stay as they lie; rows begun keep their
 * joints; direction, bond, place of the rows and side gap are pinned in a new job file, so that the same grid comes out
 * by itself and any checker can prove the new plan from that file. `regrid` then writes the rest of it into `raw`. Problems have paths in the progress file.
 * Pure: `planHash` is the hash of the plan file's value.
 */
export function resumeJob(
  read: JobRead,
  survey: SurveyRecord,
  plan: PlanFile,
  planHash: string,
  progress: ProgressFile,
): ResumeResult {
  const hashes = { job: read.hash, plan: planHash };
  const problems = checkAgainstPlan(progress, plan, hashes, read.job.site.sides.length);
  if (problems.length > 0) return { ok: false, problems };
  const state = stateOf(liveOf(progress.events));
  const { board, cut } = read.job;
  const kept = keptOf(plan, state, board.width, cut.kerf, cut.minOffcut);
  const changes = { ...pins(read, plan, kept), ...measured(read, survey, state), ...stockLeft(read, kept) };
  return {
    ok: true,
    value: { state, kept, raw: withChanges(read.raw, changes), changed: Object.keys(changes).sort() },
  };
}

/** Path "group.field" to its new value. */
export type Changes = Record<string, unknown>;

/** The grid of the plan worked from, written into the fields that choose it. Nothing is pinned while nothing lies. */
function pins({ job }: JobRead, plan: PlanFile, kept: Kept): Changes {
  const first = plan.rows[0];
  if (first === undefined || (kept.rows.length === 0 && (job.bond.locked ?? []).length === 0)) return {};
  const changes: Changes = {
    "bond.angle": plan.frame.angle,
    "bond.kind": plan.bond.kind,
    "bond.startAt": toSite(frameAt(...plan.frame.origin, plan.frame.angle), 0, first.v[0] * UM_PER_MM),
    "gaps.side": plan.bond.sideGap,
  };
  if (job.bond.firstRow !== null) changes["bond.firstRow"] = undefined;
  return changes;
}

function measured({ raw }: JobRead, survey: SurveyRecord, state: ProgressState): Changes {
  const changes: Changes = {};
  const site = groupOf(raw, "site");
  if (state.levels.length > 0) {
    const before = groupOf(raw, "survey").levels;
    changes["survey.levels"] = [...(Array.isArray(before) ? before : []), ...state.levels];
  }
  const walls = remeasure(survey, state.walls);
  if (!walls) return changes;
  changes["site.outline"] = walls.outline;
  changes["site.sides"] = walls.sides;
  // tapes and offsets have done their work: the outline holds what they gave
  for (const field of ["marks", "offsets"]) if (Object.hasOwn(site, field)) changes[`site.${field}`] = undefined;
  return changes;
}

/** Where boards at hand or in the yard are counted, less those that were spoilt; boards that lie are still boards of the plan. */
function stockLeft({ job }: JobRead, kept: Kept): Changes {
  const gone = kept.boards.filter(({ why }) => why === "broken").map(({ board }) => board.length);
  if (gone.length === 0 || job.board.lengths.every((one) => one.stock === null && !one.owned)) return {};
  const lengths = job.board.lengths.map((one) => {
    let { stock } = one;
    let owned = one.owned ?? 0;
    for (let i = gone.length - 1; i >= 0 && ((stock !== null && stock > 0) || owned > 0); i--) {
      if (Math.abs(gone[i]! - one.length) > 0.001) continue;
      gone.splice(i, 1);
      if (stock !== null) stock--;
      // whoever's the spoilt one was, one more is to be bought
      if (owned > 0) owned--;
    }
    return one.owned ? { ...one, stock, owned } : { ...one, stock };
  });
  return { "board.lengths": lengths };
}

function groupOf(raw: unknown, name: string): Record<string, unknown> {
  const group = (raw as Record<string, unknown>)[name];
  return typeof group === "object" && group !== null ? (group as Record<string, unknown>) : {};
}

/** A copy of the job file with fields changed; undefined takes a field out. */
export function withChanges(raw: unknown, changes: Changes): Record<string, unknown> {
  const copy = JSON.parse(JSON.stringify(raw)) as Record<string, Record<string, unknown>>;
  for (const [path, value] of Object.entries(changes)) {
    const [group, field] = path.split(".") as [string, string];
    copy[group] ??= {};
    if (value === undefined) delete copy[group][field];
    else copy[group][field] = JSON.parse(JSON.stringify(value)) as unknown;
  }
  return copy;
}
