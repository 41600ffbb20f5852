/** Rule 3, spans: a short one is one piece; no thin web beside a cut-out; a closed hole only round what is flush. */
import { areaOf, boundsOf, insidePaths, meet, type Paths } from "../polygons.ts";
import { blame, countedOn, type JudgedPiece, type JudgedRow, mm, type Scene, TOUCH, um } from "../scene.ts";
import type { JudgedJoint } from "./joints.ts";

/** How far from a cut-out's grown ring something still counts as beside it, um: edge tolerance and rounding. */
const BESIDE_UM = 2300;

export function judgeSpans(scene: Scene, joints: JudgedJoint[]): void {
  const longest = um(countedOn(scene.job));
  const spanOf = new Map<JudgedPiece, number>();
  for (const row of scene.rows) for (const piece of row.pieces) spanOf.set(piece, spanHolding(row, piece));
  for (const joint of joints) {
    const span = spanOf.get(joint.left)!;
    if (span < 0 || span !== spanOf.get(joint.right)) continue;
    const { bounds } = joint.row.spans[span]!;
    if (bounds.u1 - bounds.u0 > longest - 500 || besideCutout(scene, joint)) continue;
    blame(scene, "spanDivided", [joint.u, joint.v], mm(bounds.u1 - bounds.u0), mm(longest), {
      row: joint.row.row,
      left: joint.left.source.id,
      right: joint.right.source.id,
    });
  }
  if (scene.field.cutouts.length === 0) return;
  const grown = scene.field.cutouts.map((cutout) => ({ ...cutout, bounds: boundsOf(cutout.grown) }));
  for (const piece of scene.pieces) {
    if (piece.plain) continue;
    for (const hole of piece.paths.slice(1)) {
      const inside = grown.find((cutout) => cutout.raw.some((p) => insidePaths([hole], p.x, p.y)));
      if (inside?.height !== "flush")
        blame(scene, "cutoutEnclosed", [hole[0]!.x, hole[0]!.y], inside?.name ?? "", null, {
          piece: piece.source.id,
          cutout: inside?.name ?? "",
        });
    }
    for (const cutout of grown) {
      const b = cutout.bounds;
      const bridges = piece.u0 < b.u0 - BESIDE_UM && piece.u1 > b.u1 + BESIDE_UM && piece.v0 < b.v1 && piece.v1 > b.v0;
      if (bridges) judgeWeb(scene, piece, cutout.grown, cutout.name);
    }
  }
}

/** Index of the span that holds most of the piece; -1 where none does. */
function spanHolding(row: JudgedRow, piece: JudgedPiece): number {
  let best = -1;
  let most = 0;
  const near = row.spans
    .map((span, index) => ({ span, index }))
    .filter(({ span: { bounds: b } }) => b.u0 < piece.u1 && b.u1 > piece.u0 && b.v0 < piece.v1 && b.v1 > piece.v0);
  if (near.length === 1) return near[0]!.index;
  for (const { span, index } of near) {
    const area = areaOf(meet(span.part, piece.paths));
    if (area > most) {
      most = area;
      best = index;
    }
  }
  return best;
}

/** A joint put at a cut-out: for a thin web, or because what stands there cannot be threaded through a board. */
function besideCutout(scene: Scene, joint: JudgedJoint): boolean {
  const { v0, v1 } = joint.row;
  return scene.field.cutouts.some((cutout) => {
    const b = boundsOf(cutout.grown);
    return b.u0 - 5000 <= joint.u && b.u1 + 5000 >= joint.u && b.v0 < v1 && b.v1 > v0;
  });
}

/**
 * Sections of a piece across the rows beside a cut-out it passes on both ends: where it is unbroken above or below the
 * cut-out from one end to the other, that bridge is nowhere thinner than minRip. A tip that runs out is none.
 */
function judgeWeb(scene: Scene, piece: JudgedPiece, cutout: Paths, name: string): void {
  const limit = um(scene.job.bond.minRip) - TOUCH;
  const us = new Set<number>();
  for (const path of [...cutout, ...piece.paths])
    for (const p of path) {
      us.add(p.x - 20);
      us.add(p.x + 20);
    }
  const b = boundsOf(cutout);
  const thin = [
    { u: 0, v: 0, width: Infinity },
    { u: 0, v: 0, width: Infinity },
  ] as const;
  for (const u of us) {
    if (u <= b.u0 || u >= b.u1) continue;
    const across = section(cutout, u).filter(([from, to]) => Math.min(to, piece.v1) - Math.max(from, piece.v0) > TOUCH);
    if (across.length === 0) continue;
    const own = section(piece.paths, u);
    for (const [side, edge] of [across[0]![0], across[across.length - 1]![1]].entries()) {
      const beside = own.find(([from, to]) => Math.abs((side === 0 ? to : from) - edge) <= BESIDE_UM);
      const width = beside ? beside[1] - beside[0] : 0;
      if (width < thin[side]!.width)
        Object.assign(thin[side]!, { u, v: beside ? (beside[0] + beside[1]) / 2 : edge, width });
    }
  }
  for (const { u, v, width } of thin)
    if (width > TOUCH && width < limit)
      blame(scene, "webThin", [u, v], mm(width), scene.job.bond.minRip, { piece: piece.source.id, cutout: name });
}

/** Where the line u = const lies inside rings: intervals of v. */
export function section(paths: Paths, u: number): [number, number][] {
  const cuts: number[] = [];
  for (const path of paths) {
    for (let i = 0, j = path.length - 1; i < path.length; j = i++) {
      const a = path[j]!;
      const b = path[i]!;
      if (a.x > u !== b.x > u) cuts.push(a.y + ((b.y - a.y) * (u - a.x)) / (b.x - a.x));
    }
  }
  cuts.sort((p, q) => p - q);
  const out: [number, number][] = [];
  for (let i = 0; i + 1 < cuts.length; i += 2) out.push([cuts[i]!, cuts[i + 1]!]);
  return out;
}
