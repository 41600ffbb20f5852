/** Rule 7, edges: what is said to hold each edge does. Clips grip it, screws have their room, the trim covers it, or a finding says nothing does. */
import { TOLERANCE } from "../../base/tolerances.ts";
import { walkRing } from "../curve.ts";
import { insidePaths, toEdges, toSegment } from "../polygons.ts";
import { blame, type JudgedPiece, mm, type Scene, TOUCH, um } from "../scene.ts";
import type { Seam } from "../seams.ts";
import { intoRows } from "../turn.ts";
import { noDrillAt, type Zones } from "../zones.ts";
import { section } from "./spans.ts";

type Segment = readonly [number, number, number, number];

/** Findings speak for an edge within reach; every tenth of a metre of it must be within reach of one. */
const STEP_UM = 100_000;

export function judgeHeld(scene: Scene, seams: Seam[], zones: Zones): void {
  const { job } = scene;
  const clipped = new Set<string>();
  for (const seam of seams)
    for (const runs of seam.runs)
      for (const run of runs) if (run.clips.length > 0) clipped.add(`${run.piece.index} ${run.edge}`);
  const screws = new Map<string, [number, number][]>();
  const radius = um(job.clips.fixing.diameter) / 2;
  const room = um(job.cut.holeEdge) + radius;
  for (const screw of scene.plan.screws) {
    const piece = scene.pieceOf.get(screw.piece);
    const [u, v] = intoRows(scene.turn, screw.at[0], screw.at[1]);
    if (!piece) {
      blame(scene, "idUnknown", [u, v], screw.piece, null, { list: "screws", id: screw.piece });
      continue;
    }
    const inside = insidePaths(piece.paths, u, v);
    const rim = inside ? toEdges(piece.paths, u, v) : 0;
    if (rim < room - TOUCH)
      blame(scene, "screwRoom", [u, v], mm(Math.max(0, rim - radius)), job.cut.holeEdge, { piece: screw.piece });
    const area = noDrillAt(zones, u, v);
    if (area !== null) blame(scene, "noDrill", [u, v], area, null, { clip: screw.piece, area });
    const key = `${piece.index} ${screw.edge}`;
    const list = screws.get(key);
    if (list) list.push([u, v]);
    else screws.set(key, [[u, v]]);
  }
  const open = openSides(scene);
  for (const piece of scene.pieces)
    for (const edge of [0, 1] as const) {
      const key = `${piece.index} ${edge}`;
      const by = piece.source.heldBy[edge];
      const at: [number, number] = [(piece.u0 + piece.u1) / 2, edge === 0 ? piece.v0 : piece.v1];
      const named = { piece: piece.source.id, row: piece.source.row, edge: edge === 0 ? "lower" : "upper" };
      if (clipped.has(key) !== (by === "clips")) blame(scene, "heldByClips", at, by, null, named);
      const own = screws.get(key) ?? [];
      if (own.length > 0 !== (by === "screws")) blame(scene, "heldByScrews", at, own.length, null, named);
      if (by === "trim" && !underTrim(scene, piece, edge, open))
        blame(scene, "heldByTrim", at, null, job.trim?.leg ?? null, named);
      if (by === "none") judgeLoose(scene, piece, edge, named);
    }
}

/** Nothing holds it: a finding `oneEdge` within reach of every part of the edge. */
function judgeLoose(scene: Scene, piece: JudgedPiece, edge: 0 | 1, named: Record<string, string | number>): void {
  const reach = TOLERANCE.excuseMm * 1000;
  // Only those that could reach any place of this piece: the distance itself is asked below, place by place.
  const near = (scene.excuses.get("oneEdge") ?? []).filter(
    (f) =>
      f.v >= piece.v0 - reach - 1000 &&
      f.v <= piece.v1 + reach + 1000 &&
      f.u >= piece.u0 - reach - 1000 &&
      f.u <= piece.u1 + reach + 1000,
  );
  const steps = Math.max(1, Math.ceil((piece.u1 - piece.u0) / STEP_UM));
  const limit = 2 * scene.job.cut.holeEdge + scene.job.clips.fixing.diameter;
  let middle: [number, number] | null = null;
  for (let i = 0; i < steps; i++) {
    const u = piece.u0 + ((piece.u1 - piece.u0) * (2 * i + 1)) / (2 * steps);
    const v = edgeAt(piece, u, edge);
    if (v === null) continue;
    const said = near.some((f) => (f.u - u) * (f.u - u) + (f.v - v) * (f.v - v) <= reach * reach);
    if (!said) {
      blame(scene, "oneEdge", [u, v], mm(piece.v1 - piece.v0), limit, named);
      return;
    }
    if (!middle || i === steps >> 1) middle = [u, v];
  }
  if (middle) blame(scene, "oneEdge", middle, mm(piece.v1 - piece.v0), limit, named);
}

/** The piece's lower or upper edge at u; null where it is an end that runs steeper across the rows than along. */
function edgeAt(piece: JudgedPiece, u: number, edge: 0 | 1): number | null {
  if (piece.plain) return edge === 0 ? piece.v0 : piece.v1;
  const before = rimAt(piece, u - 500, edge);
  const after = rimAt(piece, u + 500, edge);
  if (before === null || after === null || Math.abs(after - before) > 1000) return null;
  return rimAt(piece, u, edge);
}

function rimAt(piece: JudgedPiece, u: number, edge: 0 | 1): number | null {
  const cuts = section(piece.paths, u);
  if (cuts.length === 0) return null;
  return edge === 0 ? cuts[0]![0] : cuts[cuts.length - 1]![1];
}

function openSides(scene: Scene): Segment[] {
  const out: Segment[] = [];
  walkRing(scene.survey.outline).forEach((side, i) => {
    if (scene.survey.sides[i]!.kind !== "open") return;
    for (let k = 1; k < side.xs.length; k++) {
      const a = intoRows(scene.turn, side.xs[k - 1]!, side.ys[k - 1]!);
      const b = intoRows(scene.turn, side.xs[k]!, side.ys[k]!);
      out.push([a[0], a[1], b[0], b[1]]);
    }
  });
  return out;
}

/** The trim's leg reaches over the edge along its whole length. */
function underTrim(scene: Scene, piece: JudgedPiece, edge: 0 | 1, open: Segment[]): boolean {
  const { trim } = scene.job;
  if (!trim || open.length === 0) return false;
  const leg = um(trim.leg);
  const steps = Math.max(2, Math.ceil((piece.u1 - piece.u0) / STEP_UM));
  for (let i = 0; i <= steps; i++) {
    const inset = i === 0 ? 2 : i === steps ? -2 : 0;
    const u = piece.u0 + ((piece.u1 - piece.u0) * i) / steps + inset;
    const v = edgeAt(piece, u, edge);
    if (v === null) continue;
    if (!open.some((s) => toSegment(u, v, s[0], s[1], s[2], s[3]) <= leg + TOUCH)) return false;
  }
  return true;
}
