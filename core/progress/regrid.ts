import { roundMm, toMm } from "../base/units.ts";
import { directionOf } from "../geometry/direction.ts";
import type { Job } from "../job/job.ts";
import type { PlanFile } from "../plan/plan.ts";
import type { SetoutRecord } from "../stages/setout/record.ts";
import { withChanges } from "./resume.ts";

export interface Regrid {
  raw: Record<string, unknown>;
  /** The rows of the new set-out lie where the old ones lay; else `raw` has a better start and wants another set-out. */
  settled: boolean;
  /** Old row to new row; rows that are no longer there are not in it. */
  rowOf: Map<number, number>;
}

/**
 * The row grid of the plan worked from, found again in a set-out of the job as it now stands: where walls moved, its
 * frame begins elsewhere. `stays`: rows that keep their joints. Writes `bond.startAt`, `bond.shift` and `bond.locked`
 * for the new frame. Pure; O(rows + joints).
 */
export function regrid(
  raw: Record<string, unknown>,
  job: Job,
  plan: PlanFile,
  setout: SetoutRecord,
  stays: ReadonlySet<number>,
): Regrid {
  const rowOf = new Map<number, number>();
  const startAt = job.bond.startAt ?? null;
  const first = setout.rows[0];
  if (startAt === null || first === undefined || plan.rows.length === 0) {
    for (const { row } of plan.rows) rowOf.set(row, row);
    return { raw, settled: true, rowOf };
  }
  const [c, s] = directionOf(plan.frame.angle);
  const dx = plan.frame.origin[0] - setout.frame.originXMm;
  const dy = plan.frame.origin[1] - setout.frame.originYMm;
  const du = dx * c + dy * s;
  const dv = dy * c - dx * s;
  const width = setout.boardWidthUm + setout.sideGapUm;
  // how many strips the new row 0 lies above the old one, and by how much the two grids miss each other
  const away = (first.v0Um - (plan.rows[0]!.v[0] + dv) * 1000) / width;
  const ahead = Math.round(away);
  const offUm = Math.round((away - ahead) * width);
  if (offUm !== 0) {
    const by = -toMm(offUm);
    const moved = [roundMm(startAt[0] - s * by), roundMm(startAt[1] + c * by)];
    return { raw: withChanges(raw, { "bond.startAt": moved }), settled: false, rowOf };
  }
  for (const { row } of plan.rows) if (setout.rows[row - ahead]) rowOf.set(row, row - ahead);
  const changes: Record<string, unknown> = { "bond.locked": lockedRows(plan, du, stays, rowOf) };
  const least = first.spans.length > 0 ? setout.spans[first.spans[0]!]!.u0Um : 0;
  if (plan.bond.kind !== "free") {
    const pitch = Math.round((plan.bond.length + job.gaps.end) * 1000);
    const phase = (plan.bond.phase + du) * 1000 + shiftOf(plan.bond.kind, ahead, pitch);
    // of a half micrometre the planner rounds up again
    changes["bond.shift"] = roundMm(modulo(Math.floor(phase - least + 0.25), pitch) / 1000);
  }
  return { raw: withChanges(raw, changes), settled: true, rowOf };
}

function lockedRows(plan: PlanFile, du: number, stays: ReadonlySet<number>, rowOf: ReadonlyMap<number, number>) {
  const joints = new Map<number, number[]>();
  for (const { row, u } of plan.joints) joints.set(row, [...(joints.get(row) ?? []), roundMm(u + du)]);
  return [...stays]
    .sort((a, b) => a - b)
    .flatMap((row) => {
      const now = rowOf.get(row);
      const us = new Set(joints.get(row) ?? []);
      return now === undefined ? [] : [{ row: now, joints: [...us].sort((a, b) => a - b) }];
    });
}

/** How far the bond has moved on after so many rows, um. */
function shiftOf(kind: PlanFile["bond"]["kind"], rows: number, pitch: number): number {
  if (kind === "half") return modulo(rows, 2) === 0 ? 0 : Math.round(pitch / 2);
  if (kind === "third") return Math.round((modulo(rows, 3) * pitch) / 3);
  return 0;
}

function modulo(value: number, by: number): number {
  const rest = value % by;
  return rest < 0 ? rest + by : rest;
}
