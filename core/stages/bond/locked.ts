import type { Finding } from "../../base/finding.ts";
import { toMm } from "../../base/units.ts";
import { toSite } from "../../geometry/frame.ts";
import type { Job } from "../../job/job.ts";
import type { SetoutRecord, Span } from "../setout/record.ts";
import type { Lattice } from "./lattice.ts";
import { type JointSpan, placeJoints } from "./place.ts";

/** A locked joint keeps this much board on both sides or is dropped, um: less is a needle, which no row holds. */
const LEAST_UM = 20_000;

export interface Locked {
  /** Span index to its locked joints, as left pieces' ends, ascending; spans of other rows are not in it. */
  bySpan: Map<number, number[]>;
  /** Row to all its locked joints, ascending. */
  byRow: Map<number, number[]>;
  /** Joints that no longer fit. */
  findings: Finding[];
}

/**
 * Rows that must keep their joints (`bond.locked`). A joint is kept where it lies inside a span that one board does not
 * cover and leaves some board on both sides; else it is dropped and named. O(spans + joints).
 */
export function lockedJoints(job: Job, setout: SetoutRecord, lattice: Lattice): Locked {
  const out: Locked = { bySpan: new Map(), byRow: new Map(), findings: [] };
  const { endUm } = lattice;
  for (const { row, joints } of job.bond.locked ?? []) {
    const spans = setout.rows[row]?.spans ?? [];
    for (const u of [...new Set(joints)].sort((a, b) => a - b)) {
      const a = Math.round(u * 1000 - endUm / 2);
      const index = spans.find((s) => setout.spans[s]!.u0Um < a && setout.spans[s]!.u1Um > a + endUm);
      const span = index === undefined ? null : setout.spans[index]!;
      const before = index === undefined ? undefined : out.bySpan.get(index);
      const from = before === undefined ? span?.u0Um : before[before.length - 1]! + endUm;
      const why = span === null ? "outside" : fits(span, from!, a, lattice);
      if (why !== null) out.findings.push(dropped(setout, row, a + endUm / 2, why));
      else {
        if (before) before.push(a);
        else out.bySpan.set(index!, [a]);
        out.byRow.set(
          row,
          [...(out.byRow.get(row) ?? []), a].sort((p, q) => p - q),
        );
      }
    }
  }
  return out;
}

function fits(span: Span, from: number, a: number, { endUm, boardUm }: Lattice): "oneBoard" | "tooShort" | null {
  if (span.u1Um - span.u0Um <= boardUm && span.mustJoint.length === 0) return "oneBoard";
  return a - from < LEAST_UM || span.u1Um - a - endUm < LEAST_UM ? "tooShort" : null;
}

function dropped(setout: SetoutRecord, row: number, u: number, why: string): Finding {
  const strip = setout.rows[Math.min(row, setout.rows.length - 1)];
  return {
    code: "lockedDropped",
    rule: "bond",
    level: "warn",
    at: toSite(setout.frame, u, strip ? (strip.v0Um + strip.v1Um) / 2 : 0),
    found: toMm(u),
    limit: null,
    releasedBy: null,
    data: { row, atMm: toMm(u), why },
  };
}

/** A span with locked joints: they stand; what lies between them is parted only where a board does not reach. */
export function aroundLocked(
  view: JointSpan,
  lattice: Lattice,
  fixed: readonly number[],
  near: readonly number[],
  above: (u0: number, u1: number) => number[],
): number[] {
  const out: number[] = [];
  for (const { from, to, end } of partsBetween(view.u0, view.u1, fixed, lattice.endUm)) {
    const musts = view.musts.filter((m) => m.from > from && m.to < to && !fixed.some((a) => a >= m.from && a <= m.to));
    out.push(...placeJoints({ ...view, u0: from, u1: to, musts }, lattice, near, above));
    if (end !== null) out.push(end);
  }
  return out;
}

/** The stretches between joints given as left pieces' ends; `end` is the joint at its right, null at the last. */
export function partsBetween(
  u0: number,
  u1: number,
  fixed: readonly number[],
  endUm: number,
): { from: number; to: number; end: number | null }[] {
  const out: { from: number; to: number; end: number | null }[] = [];
  let from = u0;
  for (const a of fixed) {
    out.push({ from, to: a, end: a });
    from = a + endUm;
  }
  out.push({ from, to: u1, end: null });
  return out;
}
