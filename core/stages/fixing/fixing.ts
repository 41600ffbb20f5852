import type { Finding } from "../../base/finding.ts";
import type { Job } from "../../job/job.ts";
import type { BondRecord, Joint } from "../bond/record.ts";
import type { SetoutRecord } from "../setout/record.ts";
import { alikeAnswer, type Known } from "./alike.ts";
import { type Barriers, barredAlong, barriersOf } from "./barred.ts";
import { endClips } from "./ends.ts";
import { heldEdges } from "./held.ts";
import type { Clip, FixingRecord } from "./record.ts";
import { reportExcuses, reportFixing, reportReach } from "./report.ts";
import { type ClipRules, clipRules } from "./rules.ts";
import { type Seam, seamOf } from "./runs.ts";
import { type SeamAnswer, solveSeam } from "./solve.ts";

/**
 * Every clip and screw of a set-out: the fewest clips on each seam that keep the clip rules, exactly, and what holds
 * each edge. A place where a rule cannot hold is named by a finding; nothing is ever drilled where it may not be.
 * Seams that look alike from their datum are solved once, so cost grows with the number of different seams.
 */
export function fixClips(job: Job, setout: SetoutRecord, bond: BondRecord): FixingRecord {
  const rules = clipRules(job, setout.sideGapUm);
  const barriers = barriersOf(job, setout, rules);
  const findings: Finding[] = [];
  const ends = endClips(bond, setout.spans, barriers, rules);
  const clips: Clip[] = [];
  const known: Known = new Map();
  const byRow = piecesByRow(setout, bond);
  // a field without a row has no seam either
  for (let k = 0; k <= setout.rows.length && setout.rows.length > 0; k++) {
    const seam = seamAt(k, setout, bond, byRow, rules);
    const answer = answerFor(seam, barriers, rules, known);
    for (const found of answer.clips) {
      const holds = heldPieces(seam, found.below, found.above);
      const kind = found.above.length === 0 ? "last" : found.below.length === 0 ? "start" : "seam";
      clips.push({ id: "", kind, seam: k, uUm: found.uUm, vUm: seam.vUm, playUm: found.playUm, holds });
    }
    reportExcuses(findings, answer.excuses, seam, setout, rules);
  }
  clips.push(...ends.clips);
  clips.sort((p, q) => p.seam - q.seam || p.uUm - q.uUm || p.vUm - q.vUm);
  const counts = { start: 0, seam: 0, last: 0, end: 0 };
  clips.forEach((clip, i) => {
    clip.id = `c${i + 1}`;
    counts[clip.kind]++;
  });
  const held = heldEdges(job, bond, clips, barriers, rules);
  reportFixing(findings, job, setout, bond, ends.barred, held.loose, rules);
  reportReach(findings, job, setout, clips, barriers);
  return { clips, heldBy: held.heldBy, screws: held.screws, counts, findings };
}

interface RowParts {
  pieces: number[][];
  joints: Joint[][];
}

function piecesByRow(setout: SetoutRecord, bond: BondRecord): RowParts {
  const pieces = setout.rows.map((): number[] => []);
  const joints = setout.rows.map((): Joint[] => []);
  bond.pieces.forEach((piece, i) => {
    pieces[piece.row]!.push(i);
  });
  for (const joint of bond.joints) joints[joint.row]!.push(joint);
  return { pieces, joints };
}

function seamAt(k: number, setout: SetoutRecord, bond: BondRecord, rows: RowParts, rules: ClipRules): Seam {
  const above = setout.rows[k];
  const below = setout.rows[k - 1];
  const v = above
    ? above.v0Um - Math.round(rules.sideGap / 2)
    : below!.v1Um + (rules.sideGap - Math.round(rules.sideGap / 2));
  const datumRow = rows.pieces[above && rows.pieces[k]!.length > 0 ? k : k - 1] ?? [];
  let datum = Number.POSITIVE_INFINITY;
  for (const i of datumRow) datum = Math.min(datum, bond.pieces[i]!.u0Um);
  const joints = [...(rows.joints[k - 1] ?? []), ...(rows.joints[k] ?? [])];
  return seamOf(
    k,
    v,
    Number.isFinite(datum) ? datum : 0,
    bond,
    rows.pieces[k] ?? [],
    rows.pieces[k - 1] ?? [],
    joints,
    rules,
  );
}

function answerFor(seam: Seam, barriers: Barriers, rules: ClipRules, known: Known): SeamAnswer {
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.NEGATIVE_INFINITY;
  for (const track of seam.tracks) {
    for (const run of track) {
      if (run.lo < lo) lo = run.lo;
      if (run.hi > hi) hi = run.hi;
    }
  }
  if (lo > hi) return { clips: [], excuses: [] };
  const zones = barredAlong(barriers, seam.vUm, lo, hi);
  return alikeAnswer(known, seam, zones, () => solveSeam(seam, zones, rules));
}

/** Pieces a clip holds, ascending: those of the lower row come first, and a piece with two runs counts once. */
function heldPieces(seam: Seam, below: readonly number[], above: readonly number[]): number[] {
  const holds: number[] = [];
  for (const run of below) holds.push(seam.tracks[1][run]!.piece);
  for (const run of above) holds.push(seam.tracks[0][run]!.piece);
  for (let i = holds.length - 1; i > 0; i--) if (holds[i] === holds[i - 1]) holds.splice(i, 1);
  return holds;
}
