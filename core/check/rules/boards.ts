/**
 * Rule 6, boards: every piece out of exactly one board, in its true shape and never mirrored, a kerf from its neighbours,
 * with the grooves it needs; no more boards than there are.
 */

import type { PlanFile } from "../../plan/plan.ts";
import { grow, meet, type Path, thickerThan, toSegment } from "../polygons.ts";
import { blame, type JudgedPiece, mm, type Scene, TOUCH, um } from "../scene.ts";

type Part = PlanFile["boards"][number]["parts"][number];

interface Placed {
  part: Part;
  piece: JudgedPiece;
  x0: number;
  y0: number;
  x1: number;
  y1: number;
  ring: Path | null;
}

export function judgeBoards(scene: Scene): void {
  const { job, plan } = scene;
  const seen = new Set<string>();
  const used = new Map<number, number>();
  for (const board of plan.boards) {
    used.set(board.length, (used.get(board.length) ?? 0) + 1);
    if (!job.board.lengths.some((l) => l.length === board.length))
      blame(scene, "boardLength", null, board.length, null, { board: board.id });
    if (board.parts.length === 0) blame(scene, "boardEmpty", null, 0, null, { board: board.id });
    const placed: Placed[] = [];
    for (const part of board.parts) {
      const piece = scene.pieceOf.get(part.piece);
      if (!piece) {
        blame(scene, "idUnknown", null, part.piece, null, { list: "boards", id: part.piece });
        continue;
      }
      const at: [number, number] = [piece.u0, piece.v0];
      if (seen.has(part.piece))
        blame(scene, "boardTwice", at, part.piece, null, { piece: part.piece, board: board.id });
      seen.add(part.piece);
      if (piece.source.board !== board.id)
        blame(scene, "boardMissing", at, piece.source.board, board.id, { piece: part.piece, board: board.id });
      placed.push(judgePart(scene, board, part, piece));
    }
    judgeApart(scene, board.id, placed);
    judgeOffcuts(scene, board, placed);
  }
  for (const piece of scene.pieces)
    if (!seen.has(piece.source.id))
      blame(scene, "boardMissing", [piece.u0, piece.v0], null, null, {
        piece: piece.source.id,
        board: piece.source.board,
      });
  for (const { length, stock } of job.board.lengths) {
    const count = used.get(length) ?? 0;
    if (stock !== null && count > stock && !plan.findings.some((f) => f.rule === "supply" && f.level === "stop"))
      blame(scene, "boardStock", null, count, stock, { length });
  }
}

function judgePart(scene: Scene, board: PlanFile["boards"][number], part: Part, piece: JudgedPiece): Placed {
  const { job } = scene;
  const x0 = um(part.at[0]);
  const y0 = um(part.at[1]);
  const x1 = x0 + um(part.size[0]);
  const y1 = y0 + um(part.size[1]);
  const at: [number, number] = [piece.u0, piece.v0];
  const named = { piece: part.piece, board: board.id };
  const width = um(job.board.width);
  if (x0 < -1 || y0 < -1 || x1 > um(board.length) + 1 || y1 > width + 1)
    blame(scene, "partOutside", at, mm(x1), board.length, named);
  if (part.turned && !job.board.reversible) blame(scene, "partTurned", at, null, null, named);
  if (Math.abs(x1 - x0 - (piece.u1 - piece.u0)) > TOUCH || Math.abs(y1 - y0 - (piece.v1 - piece.v0)) > TOUCH)
    blame(scene, "partShape", at, part.size[0], mm(piece.u1 - piece.u0), named);
  let ring: Path | null = null;
  if (part.ring) {
    ring = part.ring.map(([x, y]) => ({ x: um(x), y: um(y) }));
    const own = piece.ring.map((p) =>
      part.turned
        ? { x: x0 + piece.u1 - p.x, y: y0 + piece.v1 - p.y }
        : { x: x0 + p.x - piece.u0, y: y0 + p.y - piece.v0 },
    );
    if (!sameRing(ring, own)) blame(scene, "partShape", at, null, null, named);
  }
  judgeEnds(scene, board, part, piece, [x0, x1], ring === null && !piece.plain);
  judgeGrooves(scene, part, piece, y0 <= 1, y1 >= width - 1);
  return { part, piece, x0, y0, x1, y1, ring };
}

/** Equal up to where it starts, and up to the direction it runs in; a mirror image is not. */
function sameRing(a: Path, b: Path): boolean {
  if (a.length !== b.length) return false;
  const n = a.length;
  const near = (p: { x: number; y: number }, q: { x: number; y: number }): boolean =>
    Math.abs(p.x - q.x) <= TOUCH && Math.abs(p.y - q.y) <= TOUCH;
  for (const step of [1, n - 1])
    for (let start = 0; start < n; start++) {
      let same = true;
      for (let i = 0; i < n && same; i++) same = near(a[i]!, b[(start + i * step) % n]!);
      if (same) return true;
    }
  return false;
}

/** A factory end is square and lies at an end of the board. */
function judgeEnds(
  scene: Scene,
  board: PlanFile["boards"][number],
  part: Part,
  piece: JudgedPiece,
  [x0, x1]: [number, number],
  boxed: boolean,
): void {
  const length = um(board.length);
  for (const end of [0, 1] as const) {
    if (piece.source.ends[end] !== "factory") continue;
    const low = (end === 0) !== part.turned;
    const there = low ? Math.abs(x0) <= 1 : Math.abs(x1 - length) <= 1;
    const u = end === 0 ? piece.u0 : piece.u1;
    // Square: nothing of the piece's outline within reach of that end but the end itself.
    const square = piece.plain || piece.ring.every((p) => Math.abs(p.x - u) <= TOUCH || Math.abs(p.x - u) > 1000);
    if (!there || (boxed && !square))
      blame(scene, "partEnd", [u, piece.v0], part.at[0], null, { piece: part.piece, board: board.id });
  }
}

/** Edges as claimed against the board's own edges where the part lies, and against the strip where the piece lies. */
function judgeGrooves(scene: Scene, part: Part, piece: JudgedPiece, atLow: boolean, atHigh: boolean): void {
  const { grooves } = scene.job.board;
  const grooved = { low: grooves === "both" || grooves === "lower", high: grooves === "both" || grooves === "upper" };
  for (const edge of [0, 1] as const) {
    const claim = piece.source.edges[edge];
    const low = (edge === 0) !== part.turned;
    const factory = low ? atLow : atHigh;
    const groove = factory && (low ? grooved.low : grooved.high);
    const stands = piece.runs[edge].some((run) => run.to - run.from > 1000);
    const at: [number, number] = [(piece.u0 + piece.u1) / 2, edge === 0 ? piece.v0 : piece.v1];
    const data = { piece: piece.source.id, edge, claim };
    if (claim === "groove" && !groove) blame(scene, "grooveMissing", at, claim, null, data);
    else if (claim === "groove" && !stands) blame(scene, "edgeClaim", at, claim, null, data);
    else if (claim === "plain" && (!factory || groove)) blame(scene, "edgeClaim", at, claim, null, data);
    else if (claim === "ripped" && stands) blame(scene, "edgeClaim", at, claim, null, data);
  }
}

/** Parts of a board lie a kerf apart and never overlap. Few parts a board, so every pair. */
function judgeApart(scene: Scene, board: string, placed: Placed[]): void {
  const kerf = um(scene.job.cut.kerf);
  for (let i = 0; i < placed.length; i++)
    for (let j = i + 1; j < placed.length; j++) {
      const a = placed[i]!;
      const b = placed[j]!;
      const dx = Math.max(a.x0 - b.x1, b.x0 - a.x1);
      const dy = Math.max(a.y0 - b.y1, b.y0 - a.y1);
      if (Math.max(dx, dy) >= kerf - 1) continue;
      const at: [number, number] = [b.piece.u0, b.piece.v0];
      const data = { board, piece: a.part.piece, other: b.part.piece };
      if (!a.ring && !b.ring) {
        blame(
          scene,
          Math.max(dx, dy) < -1 ? "partOverlap" : "partKerf",
          at,
          mm(Math.max(dx, dy)),
          scene.job.cut.kerf,
          data,
        );
        continue;
      }
      const ra = a.ring ?? corners(a);
      const rb = b.ring ?? corners(b);
      if (thickerThan(meet([ra], [rb]), 2).length > 0) blame(scene, "partOverlap", at, null, scene.job.cut.kerf, data);
      else if (ringDistance(ra, rb) < kerf - TOUCH)
        blame(scene, "partKerf", at, mm(ringDistance(ra, rb)), scene.job.cut.kerf, data);
    }
}

function corners(p: Placed): Path {
  return [
    { x: p.x0, y: p.y0 },
    { x: p.x1, y: p.y0 },
    { x: p.x1, y: p.y1 },
    { x: p.x0, y: p.y1 },
  ];
}

function ringDistance(a: Path, b: Path): number {
  let best = Infinity;
  for (const [from, onto] of [
    [a, b],
    [b, a],
  ] as const)
    for (const p of from)
      for (let i = 0, j = onto.length - 1; i < onto.length; j = i++)
        best = Math.min(best, toSegment(p.x, p.y, onto[j]!.x, onto[j]!.y, onto[i]!.x, onto[i]!.y));
  return best;
}

/** What is called left over is on the board and not in a part. */
function judgeOffcuts(scene: Scene, board: PlanFile["boards"][number], placed: Placed[]): void {
  const width = um(scene.job.board.width);
  for (const offcut of board.offcuts) {
    const x0 = um(offcut.at[0]);
    const y0 = um(offcut.at[1]);
    const own: Path = corners({ x0, y0, x1: x0 + um(offcut.size[0]), y1: y0 + um(offcut.size[1]) } as Placed);
    const inside = x0 >= -1 && y0 >= -1 && own[2]!.x <= um(board.length) + 1 && own[2]!.y <= width + 1;
    const taken = placed.some((p) => {
      if (p.x0 >= own[2]!.x - TOUCH || p.x1 <= x0 + TOUCH || p.y0 >= own[2]!.y - TOUCH || p.y1 <= y0 + TOUCH)
        return false;
      return p.ring ? meet(grow([own], -TOUCH), [p.ring]).length > 0 : true;
    });
    if (!inside || taken) blame(scene, "offcutTaken", null, offcut.at[0], null, { board: board.id });
  }
}
