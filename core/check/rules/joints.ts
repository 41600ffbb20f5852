/**
 * Rule 4, end gaps: every two pieces that face each other across an end gap in one row are joined by exactly one entry
 * of `joints`, at the middle of the gap. What faces what is read off the rings: an edge square to the row that looks
 * up the row, and one that looks back at it.
 */
import { TOLERANCE } from "../../base/tolerances.ts";
import { blame, type JudgedPiece, type JudgedRow, mm, type Scene, TOUCH, um } from "../scene.ts";

export interface JudgedJoint {
  row: JudgedRow;
  left: JudgedPiece;
  right: JudgedPiece;
  /** The two ends and the middle between them, um. */
  leftU: number;
  rightU: number;
  u: number;
  v: number;
}
interface Face {
  piece: JudgedPiece;
  u: number;
  v0: number;
  v1: number;
}

/** The joints as they stand in the geometry; the file's list is judged against them. */
export function judgeJoints(scene: Scene): JudgedJoint[] {
  const joints: JudgedJoint[] = [];
  const standing = new Map<string, JudgedJoint>();
  for (const row of scene.rows) {
    for (const joint of facing(scene, row)) {
      const key = `${joint.left.index} ${joint.right.index}`;
      if (standing.has(key)) continue;
      standing.set(key, joint);
      joints.push(joint);
    }
  }
  const named = new Set<string>();
  for (const entry of scene.plan.joints) {
    const left = scene.pieceOf.get(entry.pieces[0]);
    const right = scene.pieceOf.get(entry.pieces[1]);
    const data = { left: entry.pieces[0], right: entry.pieces[1] };
    const at: [number, number] = [um(entry.u), scene.rowOf.get(entry.row)?.v0 ?? 0];
    const key = left && right ? `${left.index} ${right.index}` : "";
    const stands = standing.get(key);
    if (!stands || stands.row.row !== entry.row) {
      blame(scene, "jointNoPair", at, entry.u, null, data);
      continue;
    }
    if (named.has(key)) blame(scene, "jointTwice", at, entry.u, null, data);
    named.add(key);
    if (Math.abs(entry.u * 1000 - stands.u) > TOUCH) blame(scene, "jointMiddle", at, entry.u, mm(stands.u), data);
  }
  const limit = TOLERANCE.endGapMm * 1000 + TOUCH;
  for (const [key, joint] of standing) {
    const data = { left: joint.left.source.id, right: joint.right.source.id };
    if (!named.has(key)) blame(scene, "jointMissing", [joint.u, joint.v], null, null, data);
    const gap = joint.rightU - joint.leftU;
    if (Math.abs(gap - um(scene.job.gaps.end)) > limit)
      blame(scene, "endGap", [joint.u, joint.v], mm(gap), scene.job.gaps.end, data);
  }
  return joints;
}

/** Ends that face each other over less than an end gap and a bit. */
function facing(scene: Scene, row: JudgedRow): JudgedJoint[] {
  const up: Face[] = [];
  const back: Face[] = [];
  for (const piece of row.pieces) {
    if (piece.plain) {
      up.push({ piece, u: piece.u1, v0: piece.v0, v1: piece.v1 });
      back.push({ piece, u: piece.u0, v0: piece.v0, v1: piece.v1 });
      continue;
    }
    for (const path of piece.paths) {
      for (let i = 0; i < path.length; i++) {
        const a = path[i]!;
        const b = path[(i + 1) % path.length]!;
        if (Math.abs(a.x - b.x) > TOUCH || Math.abs(a.y - b.y) <= TOUCH) continue;
        const face = { piece, u: Math.round((a.x + b.x) / 2), v0: Math.min(a.y, b.y), v1: Math.max(a.y, b.y) };
        (b.y > a.y ? up : back).push(face);
      }
    }
  }
  up.sort((a, b) => a.u - b.u);
  back.sort((a, b) => a.u - b.u);
  const reach = um(scene.job.gaps.end) + 2500;
  const joints: JudgedJoint[] = [];
  let from = 0;
  for (const left of up) {
    while (from < back.length && back[from]!.u < left.u - TOUCH) from++;
    for (let j = from; j < back.length && back[j]!.u <= left.u + reach; j++) {
      const right = back[j]!;
      const v0 = Math.max(left.v0, right.v0);
      const v1 = Math.min(left.v1, right.v1);
      if (right.piece === left.piece || v1 - v0 <= TOUCH) continue;
      joints.push({
        row,
        left: left.piece,
        right: right.piece,
        leftU: left.u,
        rightU: right.u,
        u: (left.u + right.u) / 2,
        v: (v0 + v1) / 2,
      });
    }
  }
  return joints;
}
