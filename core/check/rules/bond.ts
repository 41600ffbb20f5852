/**
 * Rule 5, the bond: one lattice for the whole field, of a board length that can be had, with the plan's phase. A joint
 * off it, a lattice place left out, and joints of neighbouring rows too close each need a finding there.
 */
import { blame, countedOn, type JudgedRow, mm, type Scene, um } from "../scene.ts";
import type { JudgedJoint } from "./joints.ts";

/** The file rounds a joint's middle to 0.001 mm, and a third of a length is rounded once more. */
const ON_LATTICE_UM = 20;

export function judgeBond(scene: Scene, joints: JudgedJoint[]): void {
  const { job, plan } = scene;
  const kind = job.bond.kind;
  if (plan.bond.kind !== kind) blame(scene, "bondLength", null, plan.bond.kind, kind, {});
  const step = um(plan.bond.length) + um(job.gaps.end);
  const own = kind === "half" ? step / 2 : kind === "third" ? step / 3 : Infinity;
  if (kind !== "free") {
    if (!job.board.lengths.some((l) => Math.abs(l.length - plan.bond.length) < 0.001))
      blame(scene, "bondLength", null, plan.bond.length, null, {});
    const shiftOf = (row: number): number =>
      kind === "half" ? ((row % 2) * step) / 2 : kind === "third" ? ((row % 3) * step) / 3 : 0;
    judgeShift(scene, step);
    const rowJoints = grouped(joints);
    for (const row of scene.rows) {
      const phase = um(plan.bond.phase) + shiftOf(row.row);
      judgeLattice(scene, row, rowJoints.get(row.row) ?? [], phase, step);
    }
  }
  if (kind !== "stack") judgeStagger(scene, joints, Math.min(um(job.bond.stagger), own));
}

/** `bond.shift`, where given, is u of row 0's first joint from row 0's least u. */
function judgeShift(scene: Scene, step: number): void {
  const { shift } = scene.job.bond;
  const row = scene.rows[0];
  if (shift === null || !row || row.pieces.length === 0) return;
  const from = row.pieces[0]!.u0;
  const off = offLattice(from + um(shift), um(scene.plan.bond.phase), step);
  if (Math.abs(off) > 2500) blame(scene, "bondShift", [from, row.v0], mm(off), shift, {});
}

function judgeLattice(scene: Scene, row: JudgedRow, joints: JudgedJoint[], phase: number, step: number): void {
  const off: JudgedJoint[] = [];
  for (const joint of joints) {
    const distance = offLattice(joint.u, phase, step);
    if (Math.abs(distance) <= ON_LATTICE_UM) continue;
    off.push(joint);
    blame(scene, "offLattice", [joint.u, joint.v], mm(distance), 0, { row: row.row, distance: mm(distance) });
  }
  // A lattice place inside a long span, well away from its ends, has its joint or a moved one near.
  const longest = um(countedOn(scene.job));
  const clear = um(scene.job.bond.minPiece) + 3000;
  for (const { bounds } of row.spans) {
    if (bounds.u1 - bounds.u0 <= longest || bounds.v1 - bounds.v0 < 3000) continue;
    const first = Math.ceil((bounds.u0 + clear - phase) / step);
    for (let k = first; phase + k * step < bounds.u1 - clear; k++) {
      const u = phase + k * step;
      const near = (j: JudgedJoint, reach: number): boolean =>
        Math.abs(j.u - u) <= reach && j.v >= bounds.v0 - 1000 && j.v <= bounds.v1 + 1000;
      if (joints.some((j) => near(j, ON_LATTICE_UM)) || off.some((j) => near(j, step))) continue;
      // No board lies across: the span is interrupted there by what is left out.
      if (!row.pieces.some((p) => p.u0 < u - 1000 && p.u1 > u + 1000)) continue;
      blame(scene, "latticeSkipped", [u, (bounds.v0 + bounds.v1) / 2], mm(u), null, { row: row.row });
    }
  }
}

function judgeStagger(scene: Scene, joints: JudgedJoint[], least: number): void {
  const rows = grouped(joints);
  for (const row of scene.rows) {
    const below = rows.get(row.row - 1);
    const own = rows.get(row.row);
    if (!below || !own) continue;
    let from = 0;
    for (const joint of own) {
      while (from < below.length && below[from]!.u < joint.u - least) from++;
      for (let j = from; j < below.length && below[j]!.u <= joint.u + least; j++) {
        const apart = Math.abs(below[j]!.u - joint.u);
        if (apart < least - ON_LATTICE_UM)
          blame(scene, "stagger", [joint.u, joint.v], mm(apart), mm(least), { row: row.row, other: row.row - 1 });
      }
    }
  }
}

function grouped(joints: JudgedJoint[]): Map<number, JudgedJoint[]> {
  const out = new Map<number, JudgedJoint[]>();
  for (const joint of joints) {
    const list = out.get(joint.row.row);
    if (list) list.push(joint);
    else out.set(joint.row.row, [joint]);
  }
  for (const list of out.values()) list.sort((a, b) => a.u - b.u);
  return out;
}

/** Signed distance to the nearest lattice place. */
function offLattice(u: number, phase: number, step: number): number {
  const k = Math.round((u - phase) / step);
  return u - phase - k * step;
}
