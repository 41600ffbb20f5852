/**
 * Rule 7, the clips themselves: in the middle of the row gap, holding what they say, of the kind that follows from it,
 * never through each other, never drilled where that is barred, and moving within their play breaks nothing.
 */

import { insidePaths } from "../polygons.ts";
import { blame, type JudgedClip, mm, type Scene, TOUCH, um } from "../scene.ts";
import { type GroovedRun, gripOf, held, near, type Seam } from "../seams.ts";
import { baseJointAt, noDrillAt, roomFor, slabEdgeAt, type Zones } from "../zones.ts";
import { section } from "./spans.ts";

export function judgeClips(scene: Scene, seams: Seam[], zones: Zones): void {
  const length = um(scene.job.clips.length);
  for (const clip of scene.clips) {
    judgePlace(scene, zones, clip);
    if (clip.source.kind === "end") judgeEndClip(scene, clip);
    else if (!seams[clip.source.seam])
      blame(scene, "clipOffSeam", [clip.u, clip.v], clip.source.seam, null, { clip: clip.source.id });
  }
  for (const seam of seams) {
    for (let i = 0; i < seam.clips.length; i++) {
      const clip = seam.clips[i]!;
      const before = seam.clips[i - 1];
      const at: [number, number] = [clip.u, clip.v];
      const named = { clip: clip.source.id, seam: seam.seam };
      if (Math.abs(clip.v - seam.v) > TOUCH) blame(scene, "clipOffSeam", at, mm(clip.v - seam.v), 0, named);
      if (before && clip.u - before.u < length - TOUCH)
        blame(scene, "clipTooClose", at, mm(clip.u - before.u), scene.job.clips.length, {
          ...named,
          other: before.source.id,
        });
      judgeHolds(scene, seam, clip, seam.holds[i]!);
      judgePlay(scene, seam, zones, i);
    }
  }
  judgeEndPairs(scene);
}

/** Every hole of a clip: not in a no-drill area, not near a base joint or a free slab edge. */
function judgePlace(scene: Scene, zones: Zones, clip: JudgedClip): void {
  const { job } = scene;
  for (const [dx, dy] of zones.holes) {
    const at: [number, number] = [clip.u + dx, clip.v + dy];
    const named = { clip: clip.source.id };
    const area = noDrillAt(zones, at[0], at[1]);
    if (area !== null) blame(scene, "noDrill", at, area, null, { ...named, area });
    // The two that may be excused are, where the clip could not have stood clear within its own length.
    const joint = baseJointAt(zones, at[0], at[1]);
    const slab = slabEdgeAt(zones, at[0], at[1]);
    if (joint === null && slab === null) continue;
    const breach =
      joint !== null
        ? blame(scene, "baseJoint", at, mm(joint), job.clips.jointEdge, named)
        : blame(scene, "slabEdge", at, mm(slab ?? 0), job.clips.slabEdge, named);
    if (roomFor(zones, clip.u - zones.half, clip.u + zones.half, clip.v, [], 0)) scene.locked.add(breach);
  }
}

function judgeHolds(scene: Scene, seam: Seam, clip: JudgedClip, runs: GroovedRun[]): void {
  const { source } = clip;
  const at: [number, number] = [clip.u, clip.v];
  const named = { clip: source.id, seam: seam.seam };
  const gripped = new Set(runs.map((run) => run.piece.source.id));
  for (const id of source.holds) if (!gripped.has(id)) blame(scene, "clipHolds", at, id, null, { ...named, piece: id });
  if (new Set(source.holds).size !== source.holds.length || source.holds.length === 0)
    blame(scene, "clipHolds", at, source.holds.length, null, { ...named, piece: source.holds[0] ?? "" });
  const window = gripOf(scene) + TOUCH;
  for (const run of near(seam, clip.u, window)) {
    const id = run.piece.source.id;
    if (gripped.has(id) || source.holds.includes(id)) continue;
    const within = clip.u > run.from + 100 && clip.u < run.to - 100;
    if (within) blame(scene, "clipHolds", at, id, null, { ...named, piece: id });
  }
  const lower = runs.some((run) => run.edge === 0);
  const upper = runs.some((run) => run.edge === 1);
  const kind = lower && upper ? "seam" : lower ? "start" : "last";
  if (runs.length > 0 && source.kind !== kind) blame(scene, "clipKind", at, source.kind, kind, named);
}

/** An end clip: in the piece it holds, within one clip length of an end of the row where no joint is. */
function judgeEndClip(scene: Scene, clip: JudgedClip): void {
  const { source } = clip;
  const at: [number, number] = [clip.u, clip.v];
  const row = scene.rowOf.get(source.seam);
  const named = { clip: source.id, row: source.seam };
  const pieces = source.holds.map((id) => scene.pieceOf.get(id));
  const length = um(scene.job.clips.length);
  if (!row || pieces.length === 0 || pieces.some((p) => !p || p.row !== row)) {
    blame(scene, "endClipPlace", at, source.holds.length, null, named);
    return;
  }
  if (clip.v < row.v0 - TOUCH || clip.v > row.v1 + TOUCH)
    blame(scene, "endClipPlace", at, mm(clip.v - row.v0), null, named);
  const reaches = pieces.some((p) => {
    const [from, to] = p!.plain ? [p!.u0, p!.u1] : endsAt(p!.paths, clip.v);
    const inside =
      (p!.plain ? clip.u >= from && clip.u <= to : insidePaths(p!.paths, clip.u, clip.v)) ||
      Math.abs(from - clip.u) <= 1000 ||
      Math.abs(to - clip.u) <= 1000;
    return (
      inside &&
      (Math.abs(clip.u - from) <= length + TOUCH ||
        Math.abs(clip.u - to) <= length + TOUCH ||
        Math.abs(clip.u - p!.u0) <= length + TOUCH ||
        Math.abs(clip.u - p!.u1) <= length + TOUCH)
    );
  });
  if (!reaches) blame(scene, "endClipPlace", at, mm(clip.u), scene.job.clips.length, named);
  const [lo, hi] = source.play;
  if (!(lo <= 0 && hi >= 0) || hi - lo > 2 * scene.job.clips.length)
    blame(scene, "clipPlay", at, hi, null, { clip: source.id });
}

/** Least and greatest u of a piece on the line v. */
function endsAt(paths: { x: number; y: number }[][], v: number): [number, number] {
  const across = section(
    paths.map((path) => path.map((p) => ({ x: p.y, y: p.x }))),
    v,
  );
  if (across.length === 0) return [-Infinity, Infinity];
  return [across[0]![0], across[across.length - 1]![1]];
}

/** Two end clips of a row are never one through the other. */
function judgeEndPairs(scene: Scene): void {
  const rows = new Map<number, JudgedClip[]>();
  for (const clip of scene.clips) {
    if (clip.source.kind !== "end") continue;
    const list = rows.get(clip.source.seam);
    if (list) list.push(clip);
    else rows.set(clip.source.seam, [clip]);
  }
  const apart = um(scene.job.clips.length) / 2;
  for (const list of rows.values()) {
    list.sort((a, b) => a.u - b.u);
    for (let i = 1; i < list.length; i++) {
      const a = list[i - 1]!;
      const b = list[i]!;
      const shared = a.source.holds.some((id) => b.source.holds.includes(id));
      if (shared && Math.abs(b.u - a.u) < apart - TOUCH && Math.abs(b.v - a.v) < apart - TOUCH)
        blame(scene, "clipTooClose", [b.u, b.v], mm(b.u - a.u), mm(apart), {
          clip: b.source.id,
          other: a.source.id,
          seam: a.source.seam,
        });
    }
  }
}

/** At both ends of its play a clip still holds what it holds, stands clear of its neighbours and where it may, and keeps its runs' distances. */
function judgePlay(scene: Scene, seam: Seam, zones: Zones, index: number): void {
  const clip = seam.clips[index]!;
  const length = um(scene.job.clips.length);
  const [lo, hi] = clip.source.play;
  if (!(lo <= 0 && hi >= 0)) {
    blame(scene, "clipPlay", [clip.u, clip.v], lo, 0, { clip: clip.source.id });
    return;
  }
  const runs = seam.holds[index]!;
  for (const move of [lo, hi]) {
    if (move === 0) continue;
    const u = clip.u + um(move);
    const before = seam.clips[index - 1];
    const after = seam.clips[index + 1];
    const clear =
      !(before && u - before.u < length - TOUCH && clip.u - before.u >= length - TOUCH) &&
      !(after && after.u - u < length - TOUCH && after.u - clip.u >= length - TOUCH);
    const holds = held(scene, seam, clip, u);
    if (
      clear &&
      runs.every((run) => holds.includes(run)) &&
      runs.every((run) => keeps(scene, run, clip, u)) &&
      allowed(zones, clip, u)
    )
      continue;
    blame(scene, "clipPlay", [clip.u, clip.v], move, null, { clip: clip.source.id });
  }
}

/** What a run asks of this clip holds at u wherever it holds at the clip's own place. */
function keeps(scene: Scene, run: GroovedRun, clip: JudgedClip, u: number): boolean {
  const rule = scene.job.clips;
  const reach = um(clip.source.kind === "seam" ? rule.endMax : rule.startEndMax) + TOUCH;
  const most = um(rule.clearMax) + (rule.measure === "clear" ? um(rule.length) : 0) + TOUCH;
  const at = run.clips.indexOf(clip);
  const asks = run.to - run.from >= um(rule.length) + TOUCH;
  const still = (fits: (u: number) => boolean): boolean => fits(u) || !fits(clip.u);
  if (asks && at === 0 && !still((x) => x - run.from <= reach)) return false;
  if (asks && at === run.clips.length - 1 && !still((x) => run.to - x <= reach)) return false;
  const before = run.clips[at - 1];
  const after = run.clips[at + 1];
  if (asks && before && !still((x) => x - before.u <= most)) return false;
  if (asks && after && !still((x) => after.u - x <= most)) return false;
  const window = gripOf(scene) + TOUCH;
  for (const { joint, left, right } of run.joints)
    if (left.clips.includes(clip) && right.clips.includes(clip) && !still((x) => Math.abs(x - joint.u) <= window))
      return false;
  return true;
}

/** Every centimetre from the clip's place to u. */
function allowed(zones: Zones, clip: JudgedClip, u: number): boolean {
  if (zones.noDrill.length === 0 && zones.baseJoints.length === 0 && !zones.slab) return true;
  const steps = Math.max(1, Math.ceil(Math.abs(u - clip.u) / 10_000));
  for (let i = 0; i <= steps; i++) {
    const at = clip.u + ((u - clip.u) * i) / steps;
    for (const [dx, dy] of zones.holes) {
      if (noDrillAt(zones, at + dx, clip.v + dy) !== null) return false;
      if (baseJointAt(zones, at + dx, clip.v + dy) !== null && baseJointAt(zones, clip.u + dx, clip.v + dy) === null)
        return false;
      if (slabEdgeAt(zones, at + dx, clip.v + dy) !== null && slabEdgeAt(zones, clip.u + dx, clip.v + dy) === null)
        return false;
    }
  }
  return true;
}
