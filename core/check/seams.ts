/** Who meets whom on a seam: grooved runs above and below, the clips that stand there, the joints. */

import type { JudgedJoint } from "./rules/joints.ts";
import { type JudgedClip, type JudgedPiece, type Run, type Scene, um } from "./scene.ts";

export interface GroovedRun extends Run {
  piece: JudgedPiece;
  edge: 0 | 1;
  /** Clips that hold the piece on this run, by u. */
  clips: JudgedClip[];
  /** Joints at its two ends. */
  joints: SeamJoint[];
}
export interface SeamJoint {
  joint: JudgedJoint;
  left: GroovedRun;
  right: GroovedRun;
}
export interface Seam {
  seam: number;
  /** Where anchors stand, um. */
  v: number;
  /** Runs by the lower edge of the row above (0), by the upper edge of the row below (1), by u. */
  runs: [GroovedRun[], GroovedRun[]];
  /** Start, seam and last clips by u. */
  clips: JudgedClip[];
  /** What each of `clips` holds. */
  holds: GroovedRun[][];
  joints: SeamJoint[];
}

/** How much of a clip's body holds a piece: what is left of it at the far end of a joint clip's place. */
export function gripOf(scene: Scene): number {
  return Math.max(0, (um(scene.job.clips.length) - um(scene.job.gaps.end)) / 4);
}

export function seamsOf(scene: Scene, joints: JudgedJoint[]): Seam[] {
  const side = um(scene.plan.bond.sideGap);
  const seams: Seam[] = [];
  for (let k = 0; k <= scene.rows.length; k++) {
    const above = scene.rows[k];
    const below = scene.rows[k - 1];
    const v = above && below ? (above.v0 + below.v1) / 2 : above ? above.v0 - side / 2 : (below?.v1 ?? 0) + side / 2;
    seams.push({
      seam: k,
      v,
      runs: [runsOf(above?.pieces ?? [], 0), runsOf(below?.pieces ?? [], 1)],
      clips: [],
      holds: [],
      joints: [],
    });
  }
  for (const clip of scene.clips) if (clip.source.kind !== "end") seams[clip.source.seam]?.clips.push(clip);
  for (const seam of seams) {
    seam.clips.sort((a, b) => a.u - b.u);
    for (const clip of seam.clips) {
      const runs = held(scene, seam, clip, clip.u);
      seam.holds.push(runs);
      for (const run of runs) run.clips.push(clip);
    }
  }
  for (const joint of joints) {
    for (const edge of [0, 1] as const) {
      const seam = seams[joint.row.row + edge];
      if (!seam) continue;
      const left = endingAt(seam.runs[edge], joint.left, joint.leftU);
      const right = startingAt(seam.runs[edge], joint.right, joint.rightU);
      if (!left || !right) continue;
      const found = { joint, left, right };
      seam.joints.push(found);
      left.joints.push(found);
      right.joints.push(found);
    }
  }
  for (const seam of seams) seam.joints.sort((a, b) => a.joint.u - b.joint.u);
  return seams;
}

/** Runs of a seam that a clip with its anchor at u holds: its piece is listed, and the body grips the run. */
export function held(scene: Scene, seam: Seam, clip: JudgedClip, u: number): GroovedRun[] {
  const half = um(scene.job.clips.length) / 2;
  const least = gripOf(scene) - 100;
  return near(seam, u, half).filter((run) => {
    if (!clip.source.holds.includes(run.piece.source.id)) return false;
    const grip = Math.min(run.to, u + half) - Math.max(run.from, u - half);
    return grip >= Math.min(least, run.to - run.from) || (u >= run.from && u <= run.to);
  });
}

/** Runs a body of `half` to both sides of u touches. */
export function near(seam: Seam, u: number, half: number): GroovedRun[] {
  const out: GroovedRun[] = [];
  for (const runs of seam.runs) {
    let lo = 0;
    let hi = runs.length;
    while (lo < hi) {
      const middle = (lo + hi) >> 1;
      if (runs[middle]!.to < u - half) lo = middle + 1;
      else hi = middle;
    }
    for (let i = lo; i < runs.length && runs[i]!.from <= u + half; i++) out.push(runs[i]!);
  }
  return out;
}

function runsOf(pieces: JudgedPiece[], edge: 0 | 1): GroovedRun[] {
  const out: GroovedRun[] = [];
  for (const piece of pieces) {
    if (piece.source.edges[edge] !== "groove") continue;
    for (const run of piece.runs[edge]) out.push({ ...run, piece, edge, clips: [], joints: [] });
  }
  return out.sort((a, b) => a.from - b.from);
}

function endingAt(runs: GroovedRun[], piece: JudgedPiece, u: number): GroovedRun | null {
  return search(runs, u, (run) => run.piece === piece && Math.abs(run.to - u) <= 20);
}
function startingAt(runs: GroovedRun[], piece: JudgedPiece, u: number): GroovedRun | null {
  return search(runs, u, (run) => run.piece === piece && Math.abs(run.from - u) <= 20);
}
/** Runs of one edge do not overlap, so both their ends ascend. */
function search(runs: GroovedRun[], u: number, fits: (run: GroovedRun) => boolean): GroovedRun | null {
  let lo = 0;
  let hi = runs.length;
  while (lo < hi) {
    const middle = (lo + hi) >> 1;
    if (runs[middle]!.to < u - 20) lo = middle + 1;
    else hi = middle;
  }
  for (let i = Math.max(0, lo - 1); i < Math.min(runs.length, lo + 3); i++) if (fits(runs[i]!)) return runs[i]!;
  return null;
}
