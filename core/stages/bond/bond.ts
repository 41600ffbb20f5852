import type { Finding } from "../../base/finding.ts";
import { toMm } from "../../base/units.ts";
import { toSite } from "../../geometry/frame.ts";
import type { Job } from "../../job/job.ts";
import type { SetoutRecord, Span } from "../setout/record.ts";
import { freeJoints } from "./free.ts";
import { type Lattice, latticeFor, latticeJoints, nearestLattice } from "./lattice.ts";
import { aroundLocked, type Locked, lockedJoints } from "./locked.ts";
import { choosePhase } from "./phase.ts";
import { cutPieces } from "./pieces.ts";
import { gapTo, type JointSpan, placeJoints } from "./place.ts";
import type { BondRecord } from "./record.ts";

/** A finding this near covers a place where the bond has no joint, um (less than what a finding may excuse). */
const COVERED_UM = 300_000;

/**
 * Where the rows' joints lie, and the pieces between them. Half, third and stack: one lattice of the longest board with one
 * phase; rows from below, each joint on the lattice unless minPiece, a post or the stagger moves it, which a finding names.
 * Free: joints come with the cutting (free.ts). Locked rows keep the joints they are given (locked.ts). Cost: spans + joints; moved rows a short path over their candidates.
 */
export function chooseBond(job: Job, setout: SetoutRecord): BondRecord {
  const lattice = latticeFor(job);
  const locked = lockedJoints(job, setout, lattice);
  if (job.bond.kind === "free") return freeBond(job, setout, lattice, locked);
  const phase = choosePhase(job, setout, lattice);
  lattice.phaseUm = phase.phaseUm;
  const findings: Finding[] = [...locked.findings];
  const joints = latticeBond(setout, lattice, locked, findings);
  const cut = cutPieces(job, setout, joints);
  return {
    kind: job.bond.kind,
    lengthUm: lattice.boardUm,
    phaseUm: phase.phaseUm + lattice.endUm / 2,
    joints: cut.joints,
    pieces: cut.pieces,
    reasons: [phase.reason],
    findings: [...findings, ...cut.findings],
  };
}

function freeBond(job: Job, setout: SetoutRecord, lattice: Lattice, locked: Locked): BondRecord {
  const chosen = freeJoints(job, setout, locked);
  const joints = chosen.joints.map((list) => list.map((middle) => Math.round(middle - lattice.endUm / 2)));
  const cut = cutPieces(job, setout, joints);
  return {
    kind: "free",
    lengthUm: lattice.boardUm,
    phaseUm: 0,
    joints: cut.joints,
    pieces: cut.pieces,
    reasons: [...chosen.reasons],
    findings: [...locked.findings, ...chosen.findings, ...cut.findings],
  };
}

/** Joints of every span on the lattice or moved from it, as left pieces' ends; what had to give is named. */
function latticeBond(setout: SetoutRecord, lattice: Lattice, locked: Locked, findings: Finding[]): number[][] {
  const joints: number[][] = setout.spans.map(() => []);
  let below: number[] = [];
  for (const row of setout.rows) {
    const here: number[] = [];
    const above = (u0: number, u1: number): number[] =>
      lattice.staggerUm === 0 ? [] : latticeJoints(lattice, row.row + 1, u0, u1);
    const over = locked.byRow.get(row.row + 1) ?? [];
    const near = lattice.staggerUm === 0 ? [] : over.length === 0 ? below : [...below, ...over].sort((a, b) => a - b);
    for (const index of row.spans) {
      const span = setout.spans[index]!;
      const half = lattice.endUm / 2;
      const view: JointSpan = {
        row: row.row,
        u0: span.u0Um,
        u1: span.u1Um,
        musts: span.mustJoint.map((m) => ({ from: m.from - half, to: m.to - half })),
        bars: span.noJoint.map((m) => ({ from: m.from - half, to: m.to - half })),
      };
      const fixed = locked.bySpan.get(index) ?? [];
      const placed =
        fixed.length === 0 ? placeJoints(view, lattice, near, above) : aroundLocked(view, lattice, fixed, near, above);
      joints[index] = placed;
      here.push(...placed);
      if (placed.length > 0 || span.cutFrom !== undefined)
        nameJoints(setout, span, view, lattice, placed, below, fixed, findings);
    }
    here.sort((a, b) => a - b);
    below = here;
  }
  return joints;
}

function nameJoints(
  setout: SetoutRecord,
  span: Span,
  view: JointSpan,
  lattice: Lattice,
  placed: readonly number[],
  below: readonly number[],
  fixed: readonly number[],
  findings: Finding[],
): void {
  const v = (span.v0Um + span.v1Um) / 2;
  const half = lattice.endUm / 2;
  const add = (code: string, rule: string, a: number, found: number | null, limit: number | null, data: object) =>
    findings.push({
      code,
      rule,
      level: "warn",
      at: toSite(setout.frame, a + half, v),
      found,
      limit,
      releasedBy: null,
      data: { row: span.row, ...data },
    });
  const long = span.u1Um - span.u0Um > lattice.boardUm;
  const named: number[] = [];
  for (const a of placed) {
    const post = span.mustJoint.find((m) => a + half >= m.from && a + half <= m.to);
    const off = Math.abs(a - nearestLattice(lattice, span.row, a));
    if (!long) {
      add("jointAtPost", "bond", a, null, null, { name: post?.name ?? "" });
    } else if (off > 0) {
      named.push(a);
      add("jointMoved", "bond", a, toMm(off), 0, {
        movedMm: toMm(off),
        why: whyMoved(view, lattice, a, post, fixed.includes(a)),
        name: post?.name ?? "",
      });
    }
    const stagger = lattice.staggerUm === 0 ? Number.POSITIVE_INFINITY : gapTo(below, a);
    if (stagger < lattice.staggerUm) {
      add("staggerShort", "stagger", a, toMm(stagger), toMm(lattice.staggerUm), {
        distanceMm: toMm(stagger),
        limitMm: toMm(lattice.staggerUm),
      });
    }
  }
  const { cutFrom } = span;
  const wasLong = cutFrom !== undefined && cutFrom.u1Um - cutFrom.u0Um > lattice.boardUm;
  if (!wasLong && (!long || named.length === 0)) return;
  for (const a of latticeJoints(lattice, span.row, span.u0Um, span.u1Um)) {
    if (gapTo(placed, a) === 0 || gapTo(named, a) <= COVERED_UM) continue;
    add("jointLeftOut", "bond", a, null, null, {});
  }
}

function whyMoved(
  view: JointSpan,
  lattice: Lattice,
  a: number,
  post: { name: string } | undefined,
  fixed: boolean,
): "minPiece" | "post" | "clear" | "stagger" | "locked" {
  if (post !== undefined) return "post";
  const regular = nearestLattice(lattice, view.row, a);
  const shortLeft = regular < view.u0 + lattice.minPieceUm;
  const shortRight = regular > view.u1 - lattice.endUm - lattice.minPieceUm;
  if (shortLeft || shortRight) return "minPiece";
  if (view.bars.some((bar) => regular > bar.from && regular < bar.to)) return "clear";
  return fixed ? "locked" : "stagger";
}
