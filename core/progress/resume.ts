import { roundMm } from "../base/units.ts";
import { directionOf } from "../geometry/direction.ts";
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
  /** The job to plan from now, as a job file: levels and walls as measured since, stock less what is gone, the grid pinned. */
  raw: Record<string, unknown>;
  /** Paths of the job that were changed. */
  changed: string[];
}
export type ResumeResult = { ok: true; value: Resumed } | { ok: false; problems: PathProblem[] };

/**
 * What is needed to plan the rest of a job that is begun. The pieces that lie stay as they lie; rows begun keep their
 * joints; direction, bond, first joint, first row and side gap are pinned in a new job file, so that the same grid comes
 * out by itself and any checker can prove the new plan from that file. Problems have paths in the progress file.
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
type Changes = Record<string, unknown>;

/** The grid of the plan worked from, written into the fields that choose it. Nothing is pinned while nothing lies. */
function pins({ job }: JobRead, plan: PlanFile, kept: Kept): Changes {
  if (kept.rows.length === 0) return {};
  const { sideGap } = plan.bond;
  const changes: Changes = {
    "bond.angle": plan.frame.angle,
    "bond.kind": plan.bond.kind,
    "gaps.side": sideGap,
    "gaps.sideRange": [sideGap, sideGap],
  };
  const first = plan.pieces.filter((piece) => piece.row === 0);
  const joint = plan.joints.filter((one) => one.row === 0).sort((a, b) => a.u - b.u)[0];
  if (joint && first.length > 0) changes["bond.shift"] = roundMm(joint.u - leastU(plan, first));
  const width = Math.max(0, ...first.map((piece) => piece.width));
  if (first.some((piece) => piece.edges[0] === "ripped") && width < job.board.width)
    changes["bond.firstRow"] = roundMm(width);
  return changes;
}

function leastU(plan: PlanFile, pieces: readonly PlanFile["pieces"][number][]): number {
  const [c, s] = directionOf(plan.frame.angle);
  const [x0, y0] = plan.frame.origin;
  let least = Number.POSITIVE_INFINITY;
  for (const { ring } of pieces) for (const [x, y] of ring) least = Math.min(least, (x - x0) * c + (y - y0) * s);
  return least;
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

/** Where boards at hand are counted, less those that are gone. */
function stockLeft({ job }: JobRead, kept: Kept): Changes {
  if (kept.boards.length === 0 || job.board.lengths.every((one) => one.stock === null)) return {};
  const gone = kept.boards.map(({ board }) => board.length);
  const lengths = job.board.lengths.map((one) => {
    let stock = one.stock;
    // two entries of one length share what is gone: the first is used up first
    for (let i = gone.length - 1; i >= 0 && stock !== null && stock > 0; i--) {
      if (Math.abs(gone[i]! - one.length) > 0.001) continue;
      gone.splice(i, 1);
      stock--;
    }
    return { ...one, stock };
  });
  return { "board.lengths": lengths };
}

function groupOf(raw: unknown, name: string): Record<string, unknown> {
  const group = (raw as Record<string, unknown>)[name];
  return typeof group === "object" && group !== null ? (group as Record<string, unknown>) : {};
}

/** A copy of the job file with fields changed; undefined takes a field out. */
function withChanges(raw: unknown, changes: Changes): Record<string, unknown> {
  const copy = JSON.parse(JSON.stringify(raw)) as Record<string, Record<string, unknown>>;
  for (const [path, value] of Object.entries(changes)) {
    const [group, field] = path.split(".") as [string, string];
    copy[group] ??= {};
    if (value === undefined) delete copy[group][field];
    else copy[group][field] = JSON.parse(JSON.stringify(value)) as unknown;
  }
  return copy;
}
