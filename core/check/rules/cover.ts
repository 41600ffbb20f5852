/**
 * Rules 1, 3 and 4: no piece reaches out of the field by more than an edge gap may fall short, and nothing deeper in
 * field and strip than a gap may exceed its nominal stays bare, but end gaps and what a finding names. A row's rectangles
 * joined end to end are judged as one, so a row costs two clips of a few corners, however long.
 */
import { TOLERANCE } from "../../base/tolerances.ts";
import { areaOf, type Bounds, boundsOf, box, meet, minus, type Path, type Paths, thickerThan } from "../polygons.ts";
import { blame, type JudgedPiece, type JudgedRow, mm, type Scene, TOUCH, um } from "../scene.ts";
import { unitOf } from "../turn.ts";
import type { JudgedJoint } from "./joints.ts";

export function judgeCover(scene: Scene, joints: JudgedJoint[]): void {
  const byRow = new Map<JudgedRow, JudgedJoint[]>();
  for (const joint of joints) {
    const list = byRow.get(joint.row);
    if (list) list.push(joint);
    else byRow.set(joint.row, [joint]);
  }
  for (const row of scene.rows) {
    const own = byRow.get(row) ?? [];
    const laid = blanket(scene, row, own);
    judgeInside(scene, row, laid);
    if (row.least.length === 0) continue;
    const covered: Paths = laid.flatMap((part) => part.paths);
    const widest = um(scene.job.gaps.end) + TOLERANCE.endGapMm * 1000 + TOUCH;
    for (const joint of own)
      if (joint.rightU - joint.leftU <= widest)
        covered.push(box(joint.leftU - TOUCH, row.v0, joint.rightU + TOUCH, row.v1));
    bare(scene, minus(row.least, covered), row.row);
  }
  const b = boundsOf(scene.field.outline);
  const first = scene.rows[0];
  const last = scene.rows[scene.rows.length - 1];
  if (!first || !last) {
    bare(scene, scene.field.least, -1);
    return;
  }
  const side = um(scene.plan.bond.sideGap);
  // Beside the first and last strip the edge gap and at most a side gap's slack stay bare.
  bare(scene, meet(scene.field.least, [box(b.u0, b.v0 - 1000, b.u1, Math.max(first.v0, b.v0 - 999))]), -1);
  bare(scene, meet(scene.field.least, [box(b.u0, Math.min(last.v1, b.v1 + 999), b.u1, b.v1 + 1000)]), -1);
  for (let i = 1; i < scene.rows.length; i++) {
    const below = scene.rows[i - 1]!;
    const row = scene.rows[i]!;
    if (row.v0 - below.v1 > side + 1000)
      bare(scene, meet(scene.field.least, [box(b.u0, below.v1, b.u1, row.v0)]), row.row);
  }
}

interface Laid {
  bounds: Bounds;
  paths: Paths;
}

/** The pieces of a row; whole rectangles with a joint between them run together. */
function blanket(scene: Scene, row: JudgedRow, joints: JudgedJoint[]): Laid[] {
  const joined = new Map<JudgedPiece, JudgedPiece>();
  const widest = um(scene.job.gaps.end) + TOLERANCE.endGapMm * 1000 + TOUCH;
  for (const joint of joints) if (joint.rightU - joint.leftU <= widest) joined.set(joint.left, joint.right);
  const whole = (p: JudgedPiece): boolean => p.plain && p.v0 === row.v0 && p.v1 === row.v1;
  const taken = new Set<JudgedPiece>();
  const out: Laid[] = [];
  for (const piece of row.pieces) {
    if (taken.has(piece)) continue;
    taken.add(piece);
    if (!whole(piece)) {
      out.push({ bounds: piece, paths: piece.paths });
      continue;
    }
    let end = piece;
    for (let next = joined.get(end); next && whole(next) && !taken.has(next); next = joined.get(end)) {
      taken.add(next);
      end = next;
    }
    const bounds = { u0: piece.u0, v0: piece.v0, u1: end.u1, v1: piece.v1 };
    out.push({ bounds, paths: [box(bounds.u0, bounds.v0, bounds.u1, bounds.v1)] });
  }
  return out;
}

function judgeInside(scene: Scene, row: JudgedRow, laid: Laid[]): void {
  const out = minus(
    laid.flatMap((part) => part.paths),
    row.most,
  );
  if (out.length === 0) return;
  for (const path of out) {
    if (thickerThan([path], 1).length === 0) continue;
    const b = boundsOf([path]);
    const at: [number, number] = [(b.u0 + b.u1) / 2, (b.v0 + b.v1) / 2];
    const piece = row.pieces.find((p) => p.u0 <= at[0] && p.u1 >= at[0] && p.v0 <= at[1] && p.v1 >= at[1]);
    blame(scene, "outsideField", at, mm(Math.min(b.u1 - b.u0, b.v1 - b.v0)), TOLERANCE.gapUnderMm, {
      piece: piece?.source.id ?? "",
      row: row.row,
    });
  }
}

/** What is bare: named by findings within reach of every part of it, or a breach where the rest lies. */
function bare(scene: Scene, rest: Paths, row: number): void {
  if (rest.length === 0) return;
  const thick = thickerThan(rest, 2 * TOUCH);
  const reach = TOLERANCE.excuseMm * 1000;
  for (const path of thick) {
    if (areaOf([path]) <= 0) continue;
    const b = boundsOf([path]);
    const near = (scene.excuses.get("cover") ?? []).filter(
      (f) => f.u > b.u0 - reach && f.u < b.u1 + reach && f.v > b.v0 - reach && f.v < b.v1 + reach,
    );
    const unnamed =
      near.length > 0
        ? minus(
            [path],
            near.map((f) => disc(f.u, f.v, reach)),
          )
        : [path];
    const areaMm2 = Math.round(Math.abs(areaOf(unnamed.length > 0 ? unnamed : [path])) / 1e6);
    if (unnamed.length > 0) {
      const far = boundsOf(unnamed.slice(0, 1));
      const at: [number, number] = [(far.u0 + far.u1) / 2, (far.v0 + far.v1) / 2];
      scene.locked.add(blame(scene, "uncovered", at, areaMm2, 0, { row, areaMm2 }));
    } else {
      blame(scene, "uncovered", [near[0]!.u, near[0]!.v], areaMm2, 0, { row, areaMm2 });
    }
  }
}

/** A disc as a ring of 72 corners that lies inside it. */
function disc(u: number, v: number, radius: number): Path {
  const path: Path = [];
  for (let k = 0; k < 72; k++) {
    const [c, s] = unitOf(k * 5);
    path.push({ x: Math.round(u + radius * c), y: Math.round(v + radius * s) });
  }
  return path;
}
