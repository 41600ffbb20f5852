/**
 * Rule 7, what every run of grooved edge, every joint and every row end asks for. A missing clip may be excused only
 * where no clip could have been set: each breach is followed by a search for a free place, and locked where one is found.
 */
import { blame, type JudgedClip, type JudgedPiece, type JudgedRow, mm, type Scene, TOUCH, um } from "../scene.ts";
import { type GroovedRun, gripOf, type Seam, type SeamJoint } from "../seams.ts";
import { mayStand, roomFor, type Zones, zonesNear } from "../zones.ts";
import type { JudgedJoint } from "./joints.ts";
import { section } from "./spans.ts";

export function judgeDemands(scene: Scene, seams: Seam[], zones: Zones, joints: JudgedJoint[]): void {
  for (const seam of seams) {
    for (const runs of seam.runs) for (const run of runs) judgeRun(scene, seam, zones, run);
    for (const joint of seam.joints) judgeJoint(scene, seam, zones, joint);
  }
  judgeRowEnds(scene, zones, joints);
}

function judgeRun(scene: Scene, seam: Seam, zones: Zones, run: GroovedRun): void {
  const rule = scene.job.clips;
  const length = um(rule.length);
  const span = run.to - run.from;
  // The file rounds run ends to 0.001 mm: a run that is one or two clips long to the rounding may count as either.
  const need = span < length + TOUCH ? 0 : span < 2 * length + TOUCH ? 1 : Math.max(1, Math.round(rule.perPiece));
  if (need === 0) return;
  const own = run.clips;
  const others = seam.clips.map((c) => c.u);
  const named = { piece: run.piece.source.id, row: run.piece.source.row, edge: run.edge === 0 ? "lower" : "upper" };
  const lock = (lo: number, hi: number, breach: ReturnType<typeof blame>): void => {
    const close = others.filter((u) => u > lo - length && u < hi + length);
    if (roomFor(zones, lo, hi, seam.v, close, length)) scene.locked.add(breach);
  };
  if (own.length < need) {
    const breach = blame(scene, "clipCount", [(run.from + run.to) / 2, seam.v], own.length, need, named);
    lock(run.from, run.to, breach);
  }
  const first = own[0];
  const last = own[own.length - 1];
  if (!first || !last) return;
  const reachOf = (clip: JudgedClip): number => um(clip.source.kind === "seam" ? rule.endMax : rule.startEndMax);
  if (first.u - run.from > reachOf(first) + TOUCH)
    lock(
      run.from,
      run.from + least(reachOf(first), rule),
      blame(scene, "clipEnd", [run.from, seam.v], mm(first.u - run.from), mm(reachOf(first)), named),
    );
  if (run.to - last.u > reachOf(last) + TOUCH)
    lock(
      run.to - least(reachOf(last), rule),
      run.to,
      blame(scene, "clipEnd", [run.to, seam.v], mm(run.to - last.u), mm(reachOf(last)), named),
    );
  const most = um(rule.clearMax) + (rule.measure === "clear" ? length : 0);
  for (let i = 1; i < own.length; i++) {
    const a = own[i - 1]!.u;
    const b = own[i]!.u;
    if (b - a <= most + TOUCH) continue;
    const breach = blame(scene, "clipSpacing", [(a + b) / 2, seam.v], mm(b - a), mm(most), named);
    if (!unbridgeable(zones, seam.v, a, b, most, Math.max(um(rule.endMax), um(rule.startEndMax))))
      scene.locked.add(breach);
  }
}

/**
 * Whether the places barred between two clips excuse their distance: one stretch longer than clips may be apart, and both
 * clips as near to it as to the end of a run. Tried every half millimetre.
 */
function unbridgeable(zones: Zones, v: number, a: number, b: number, most: number, reach: number): boolean {
  const long: [number, number][] = [];
  let free = a;
  const near = zonesNear(zones, a, b, v);
  for (let u = a + 500; u <= b; u += 500) {
    if (u + 500 <= b && !mayStand(near, u, v, true)) continue;
    const to = u + 500 > b ? b : u;
    if (to - free > most - 1000) long.push([free, to]);
    free = to;
  }
  const [only] = long;
  return long.length === 1 && only![0] - a <= reach + 1000 && b - only![1] <= reach + 1000;
}

/** A clip set nearer the end might be alone on its stretch of seam, so only what holds either way counts as room. */
function least(reach: number, rule: { endMax: number; startEndMax: number }): number {
  return Math.min(reach, um(Math.min(rule.endMax, rule.startEndMax)));
}

/** One clip holds both ends; where its place is barred, one for each end; else a finding. */
function judgeJoint(scene: Scene, seam: Seam, zones: Zones, { joint, left, right }: SeamJoint): void {
  const length = um(scene.job.clips.length);
  const grip = gripOf(scene);
  // A groove that ends before a clip could grip it asks for nothing here.
  const enough = 2 * grip + um(scene.job.gaps.end);
  const together = left.clips.find((c) => Math.abs(c.u - joint.u) <= grip + TOUCH && right.clips.includes(c));
  if (together) return;
  const named = {
    left: joint.left.source.id,
    right: joint.right.source.id,
    row: joint.row.row,
    edge: left.edge === 0 ? "lower" : "upper",
  };
  const short = left.to - left.from < enough || right.to - right.from < enough;
  const leftHeld = left.clips.some((c) => joint.u - c.u <= 2 * length + TOUCH);
  const rightHeld = right.clips.some((c) => c.u - joint.u <= 2 * length + TOUCH);
  const others = seam.clips.map((c) => c.u).filter((u) => Math.abs(u - joint.u) < 2 * length);
  const room = !short && roomFor(zones, joint.u - grip, joint.u + grip, seam.v, others, length);
  if (room) {
    scene.locked.add(blame(scene, "jointClip", [joint.u, seam.v], null, mm(grip), named));
    return;
  }
  if (leftHeld && rightHeld) return;
  const breach = blame(scene, "jointClip", [joint.u, seam.v], null, mm(grip), named);
  const place = (held: boolean, run: GroovedRun, lo: number, hi: number): boolean =>
    !held &&
    run.to - run.from >= length &&
    roomFor(
      zones,
      Math.max(lo, run.from),
      Math.min(hi, run.to),
      seam.v,
      seam.clips.map((c) => c.u).filter((u) => u > lo - length && u < hi + length),
      length,
    );
  if (
    place(leftHeld, left, joint.u - 2 * length, joint.leftU) ||
    place(rightHeld, right, joint.rightU, joint.u + 2 * length)
  )
    scene.locked.add(breach);
}

/** Both ends of every row: the outermost end to the left and to the right has an end clip within one clip length. */
function judgeRowEnds(scene: Scene, zones: Zones, joints: JudgedJoint[]): void {
  const length = um(scene.job.clips.length);
  const endClips = new Map<number, JudgedClip[]>();
  for (const clip of scene.clips) {
    if (clip.source.kind !== "end") continue;
    const list = endClips.get(clip.source.seam);
    if (list) list.push(clip);
    else endClips.set(clip.source.seam, [clip]);
  }
  const hasLeft = new Set(joints.map((j) => j.right));
  const hasRight = new Set(joints.map((j) => j.left));
  for (const row of scene.rows) {
    const lefts = row.pieces.filter((p) => !hasLeft.has(p));
    const rights = row.pieces.filter((p) => !hasRight.has(p));
    const left = lefts.reduce<JudgedPiece | null>((best, p) => (!best || p.u0 < best.u0 ? p : best), null);
    const right = rights.reduce<JudgedPiece | null>((best, p) => (!best || p.u1 > best.u1 ? p : best), null);
    const own = endClips.get(row.row) ?? [];
    if (left) judgeEnd(scene, zones, row, left, "left", own, length);
    if (right) judgeEnd(scene, zones, row, right, "right", own, length);
  }
}

function judgeEnd(
  scene: Scene,
  zones: Zones,
  row: JudgedRow,
  piece: JudgedPiece,
  end: "left" | "right",
  clips: JudgedClip[],
  length: number,
): void {
  const found = clips.some((clip) => {
    if (!clip.source.holds.includes(piece.source.id)) return false;
    const edge = endOn(piece, clip.v, end);
    const extent = end === "left" ? piece.u0 : piece.u1;
    return [edge, extent].some((u) => u !== null && Math.abs(clip.u - u) <= length + TOUCH);
  });
  if (found) return;
  const u = end === "left" ? piece.u0 : piece.u1;
  const at: [number, number] = [u, (piece.v0 + piece.v1) / 2];
  const breach = blame(scene, "endClipMissing", at, null, null, { piece: piece.source.id, row: row.row, end });
  for (let i = 1; i < 10; i++) {
    const v = piece.v0 + ((piece.v1 - piece.v0) * i) / 10;
    const edge = endOn(piece, v, end);
    if (edge === null) continue;
    for (let k = 2; k < 24; k++) {
      const x = edge + ((end === "left" ? 1 : -1) * length * k) / 24;
      const inside = inPiece(piece, x, v) && inPiece(piece, x + 20, v) && Math.abs(x - u) < length;
      if (inside && mayStand(zones, x, v, false) && mayStand(zones, x + 20, v, false)) {
        scene.locked.add(breach);
        return;
      }
    }
  }
}

/** Where the piece ends on the line v; null where the line misses it. */
function endOn(piece: JudgedPiece, v: number, end: "left" | "right"): number | null {
  if (v < piece.v0 - TOUCH || v > piece.v1 + TOUCH) return null;
  if (piece.plain) return end === "left" ? piece.u0 : piece.u1;
  const across = alongLine(piece, v);
  if (across.length === 0) return null;
  return end === "left" ? across[0]![0] : across[across.length - 1]![1];
}

function inPiece(piece: JudgedPiece, u: number, v: number): boolean {
  if (piece.plain) return u > piece.u0 && u < piece.u1;
  return alongLine(piece, v).some(([from, to]) => u > from && u < to);
}

function alongLine(piece: JudgedPiece, v: number): [number, number][] {
  return section(
    piece.paths.map((path) => path.map((p) => ({ x: p.y, y: p.x }))),
    v,
  );
}
