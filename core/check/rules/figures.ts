/** Rule 6 and 9, the figures of a plan counted again from its boards, pieces and clips. */
import { TOLERANCE } from "../../base/tolerances.ts";
import type { PlanFile } from "../../plan/plan.ts";
import { walkRing } from "../curve.ts";
import { areaOf } from "../polygons.ts";
import { blame, type Scene, um } from "../scene.ts";

const SAME_CUT = um(TOLERANCE.sameCutMm);

export function judgeFigures(scene: Scene): void {
  const { plan, job } = scene;
  const { figures } = plan;
  expect(scene, "boards", figures.boards, plan.boards.length, 0);
  for (const kind of ["start", "seam", "last", "end"] as const)
    expect(scene, `clips.${kind}`, figures.clips[kind], plan.clips.filter((c) => c.kind === kind).length, 0);
  const metres = plan.boards.reduce((sum, b) => sum + b.length, 0);
  expect(scene, "mass", figures.mass, (metres / 1000) * job.board.mass, 0.001);
  // A ring rounded to 0.001 mm bounds its area to about half its length times that.
  let laid = 0;
  let odd = 0;
  for (const piece of scene.pieces) {
    laid += areaOf(piece.paths) / 1e6;
    if (!piece.plain) odd++;
  }
  expect(scene, "waste", figures.waste, metres * job.board.width - laid, 5 + 10 * odd + scene.pieces.length * 0.5);
  expect(scene, "area", figures.area, areaOf(scene.field.paths) / 1e6, areaSlack(scene));
  let cuts = 0;
  let rips = 0;
  for (const board of plan.boards) {
    const sawn = sawnOf(scene, board);
    cuts += sawn.cuts;
    rips += sawn.rips;
  }
  expect(scene, "cuts", figures.cuts, cuts, 0);
  expect(scene, "rips", figures.rips, rips, 0);
  const total = plan.takeoff.reduce(
    (sum, item) => sum + (item.price === null ? 0 : Math.round(item.buy * item.price)),
    0,
  );
  expect(scene, "total", figures.total, total, 0.5);
}

function expect(scene: Scene, figure: string, found: number, counted: number, slack: number): void {
  if (!(Math.abs(found - counted) <= slack + Math.abs(counted) * 1e-12))
    blame(scene, "figure", null, found, Math.round(counted * 1000) / 1000, { figure });
}

/** How far two honest fields may differ in area, mm2: rounding of corners, and chords of arcs. */
function areaSlack(scene: Scene): number {
  let straight = 0;
  let curved = 0;
  for (const ring of [scene.survey.outline, ...scene.survey.cutouts.map((c) => c.ring)])
    for (const side of walkRing(ring))
      for (let i = 1; i < side.xs.length; i++) {
        const dx = side.xs[i]! - side.xs[i - 1]!;
        const dy = side.ys[i]! - side.ys[i - 1]!;
        if (side.radius === 0) straight += Math.sqrt(dx * dx + dy * dy);
        else curved += Math.sqrt(dx * dx + dy * dy);
      }
  return 10 + 0.005 * straight + 0.25 * curved;
}

type Board = PlanFile["boards"][number];
type Part = Board["parts"][number];

/**
 * Saw cuts of a board. Across: the left end of what lies first, unless it is the board's square end; between neighbours
 * one where both lie a kerf apart with ends of one direction, else two; the right end of what lies last; and within a
 * group of strips side by side, each strip that ends before the group does. Along: each side of a strip that is not the
 * board's edge, once for two sides a kerf apart.
 */
function sawnOf(scene: Scene, board: Board): { cuts: number; rips: number } {
  const kerf = scene.job.cut.kerf;
  const width = scene.job.board.width;
  const groups = grouped(board);
  let cuts = 0;
  let rips = 0;
  groups.forEach((group, k) => {
    const before = groups[k - 1];
    if (!before) cuts += group.x0 > 0.001 || rise(scene, group, 0) !== 0 ? 1 : 0;
    else {
      const a = rise(scene, before, 1);
      const b = rise(scene, group, 0);
      // Along the boards' lower edges, then square to the cut.
      const along = um(group.x0) + Math.max(0, -b) - (um(before.x1) - Math.max(0, a));
      const near = (along * width) / Math.sqrt(width * width + (a / 1000) * (a / 1000)) <= um(kerf) + SAME_CUT;
      cuts += near && Math.abs(a - b) <= SAME_CUT ? 1 : 2;
    }
    cuts += group.parts.filter((p) => p.at[0] + p.size[0] < group.x1 - 0.0005).length;
    const sides = new Set<number>();
    for (const p of group.parts) {
      const top = um(p.at[1]) + um(p.size[1]);
      if (um(p.at[1]) > 0) sides.add(um(p.at[1]));
      if (top < um(width)) sides.add(top + um(kerf));
    }
    rips += sides.size;
  });
  const last = groups[groups.length - 1];
  if (last && (last.x1 < board.length - 0.001 || rise(scene, last, 1) !== 0)) cuts++;
  return { cuts, rips };
}

interface Group {
  parts: Part[];
  x0: number;
  x1: number;
}

/** Strips that lie side by side within the length of the longest of them, in order along the board. */
function grouped(board: Board): Group[] {
  const groups: Group[] = [];
  for (const part of [...board.parts].sort((a, b) => b.size[0] - a.size[0])) {
    const x0 = part.at[0];
    const x1 = x0 + part.size[0];
    const host = groups.find((g) => {
      const main = g.parts[0]!;
      const beside = part.at[1] >= main.at[1] + main.size[1] - 0.001 || part.at[1] + part.size[1] <= main.at[1] + 0.001;
      return beside && x0 >= g.x0 - 0.001 && x1 <= g.x1 + 0.001;
    });
    if (host) host.parts.push(part);
    else groups.push({ parts: [part], x0, x1 });
  }
  return groups.sort((a, b) => a.x0 - b.x0);
}

/** How far a straight slanting end of a board-wide piece runs to the right from lower to upper edge, um; 0 where square. */
function rise(scene: Scene, group: Group, end: 0 | 1): number {
  const part = group.parts[0]!;
  const piece = scene.pieceOf.get(part.piece);
  if (group.parts.length > 1 || !piece || piece.plain || piece.paths.length > 1) return 0;
  if (Math.abs(part.size[1] - scene.job.board.width) > 0.001) return 0;
  const low: number[] = [];
  const high: number[] = [];
  for (const p of piece.ring) {
    if (Math.abs(p.y - piece.v0) <= 3) low.push(p.x);
    else if (Math.abs(p.y - piece.v1) <= 3) high.push(p.x);
    else return 0;
  }
  const own = part.turned ? 1 - end : end;
  const slope = own === 0 ? Math.min(...high) - Math.min(...low) : Math.max(...high) - Math.max(...low);
  return Math.abs(slope) <= 3 ? 0 : slope;
}
