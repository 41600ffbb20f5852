/**
 * Rule 8, the order of work: every piece once, every clip once and before the board that covers it, and every piece can
 * be moved in from +v by `engage`: what it sweeps over is clear of what is laid and of what stands.
 */

import { walkRing } from "../curve.ts";
import {
  areaOf,
  type Bounds,
  boundsOf,
  box,
  insidePaths,
  join,
  meet,
  minus,
  type Path,
  type Paths,
  thickerThan,
  toEdges,
  toSegment,
} from "../polygons.ts";
import { blame, type JudgedPiece, type Scene, TOUCH, um } from "../scene.ts";
import { intoRows } from "../turn.ts";

export function judgeLaying(scene: Scene): void {
  const { plan } = scene;
  const stepOf = new Map<JudgedPiece, number>();
  const setAt = new Map<string, number>();
  plan.laying.forEach((entry, index) => {
    if (entry.step !== index + 1) blame(scene, "stepNumber", null, entry.step, index + 1, { piece: entry.piece });
    const piece = scene.pieceOf.get(entry.piece);
    if (!piece) blame(scene, "idUnknown", null, entry.piece, null, { list: "laying", id: entry.piece });
    else if (stepOf.has(piece))
      blame(scene, "laidTwice", [piece.u0, piece.v0], entry.piece, null, { piece: entry.piece, step: entry.step });
    else stepOf.set(piece, index);
    // Clips before a piece count half a step earlier, those after it half a step later.
    for (const [ids, when] of [
      [entry.clipsBefore, index - 0.25],
      [entry.clipsAfter, index + 0.25],
    ] as const)
      for (const id of ids) {
        if (!scene.clipOf.has(id)) blame(scene, "idUnknown", null, id, null, { list: "laying", id });
        else if (setAt.has(id)) blame(scene, "clipSetTwice", null, id, null, { clip: id, step: entry.step });
        else setAt.set(id, when);
      }
  });
  for (const piece of scene.pieces)
    if (!stepOf.has(piece))
      blame(scene, "notLaid", [piece.u0, piece.v0], piece.source.id, null, { piece: piece.source.id });
  for (const clip of scene.clips) {
    const when = setAt.get(clip.source.id);
    if (when === undefined) {
      blame(scene, "clipNotSet", [clip.u, clip.v], clip.source.id, null, { clip: clip.source.id });
      continue;
    }
    for (const id of clip.source.holds) {
      const piece = scene.pieceOf.get(id);
      const covers =
        piece &&
        (clip.source.kind === "end" ? insidePaths(piece.paths, clip.u, clip.v) : piece.source.row === clip.source.seam);
      if (!covers) continue;
      const laid = stepOf.get(piece);
      if (laid !== undefined && when > laid)
        blame(scene, "clipCovered", [clip.u, clip.v], clip.source.id, null, { clip: clip.source.id, piece: id });
    }
  }
  judgeInsertion(scene, stepOf);
}

function judgeInsertion(scene: Scene, stepOf: Map<JudgedPiece, number>): void {
  const engage = um(scene.job.clips.engage);
  if (engage <= 0) return;
  const standing = edgesThatStand(scene);
  for (const row of scene.rows) {
    const above = scene.rowOf.get(row.row + 1)?.pieces ?? [];
    const beyond =
      engage > row.v1 - row.v0
        ? scene.rows.filter((r) => r.row > row.row + 1 && r.v0 < row.v1 + engage).flatMap((r) => r.pieces)
        : [];
    let from = 0;
    let start = 0;
    const widest = widestOf(above);
    const ownWidest = widestOf(row.pieces);
    for (const piece of row.pieces) {
      const step = stepOf.get(piece);
      if (step === undefined) continue;
      const hits = (other: JudgedPiece): Hit | null => {
        const when = stepOf.get(other);
        return when !== undefined && when < step && other !== piece ? sweeps(piece, engage, other) : null;
      };
      while (from < above.length && above[from]!.u0 < piece.u0 - widest) from++;
      const blocked: Hit[] = [];
      const test = (other: JudgedPiece): void => {
        const hit = hits(other);
        if (hit) blocked.push(hit);
      };
      for (let i = from; i < above.length && above[i]!.u0 < piece.u1; i++) test(above[i]!);
      while (start < row.pieces.length && row.pieces[start]!.u0 < piece.u0 - ownWidest) start++;
      for (let i = start; i < row.pieces.length && row.pieces[i]!.u0 < piece.u1; i++) test(row.pieces[i]!);
      for (const other of beyond) test(other);
      blocked.push(...standing(piece, engage));
      if (blocked.length > 0) blameCaptive(scene, piece, blocked);
    }
  }
}

function widestOf(pieces: JudgedPiece[]): number {
  return pieces.reduce((most, p) => Math.max(most, p.u1 - p.u0), 0);
}

/** What stands in the way of a piece, and the places along it, no further apart than a finding reaches. */
interface Hit {
  by: string;
  places: [number, number][];
}
const PLACE_STEP_UM = 200_000;

function hitAt(by: string, paths: Paths): Hit {
  const b = boundsOf(paths);
  const steps = Math.max(1, Math.ceil((b.u1 - b.u0) / PLACE_STEP_UM));
  const places: [number, number][] = [];
  for (let i = 0; i < steps; i++) places.push([b.u0 + ((b.u1 - b.u0) * (2 * i + 1)) / (2 * steps), (b.v0 + b.v1) / 2]);
  return { by, places };
}

/**
 * The piece is captive once, however many things hold it: named where a finding speaks of one of them or of the piece's
 * middle, if any does.
 */
function blameCaptive(scene: Scene, piece: JudgedPiece, hits: Hit[]): void {
  let best: { by: string; at: [number, number]; far: number } | null = null;
  const middle: Hit = { by: hits[0]!.by, places: [[(piece.u0 + piece.u1) / 2, (piece.v0 + piece.v1) / 2]] };
  for (const { by, places } of [...hits, middle])
    for (const at of places) {
      let far = Infinity;
      for (const f of scene.excuses.get("captive") ?? [])
        far = Math.min(far, (f.u - at[0]) * (f.u - at[0]) + (f.v - at[1]) * (f.v - at[1]));
      if (!best || far < best.far) best = { by, at, far };
    }
  if (best) blame(scene, "captive", best.at, scene.job.clips.engage, null, { piece: piece.source.id, by: best.by });
}

/** Where, moving in by `engage` from +v, the piece would pass through the other; null where it would not. */
function sweeps(piece: JudgedPiece, engage: number, other: JudgedPiece): Hit | null {
  const lapU = Math.min(piece.u1, other.u1) - Math.max(piece.u0, other.u0);
  const lapV = Math.min(piece.v1 + engage, other.v1) - Math.max(piece.v0, other.v0);
  if (lapU <= TOUCH || lapV <= TOUCH) return null;
  const swept = piece.plain ? [box(piece.u0, piece.v0, piece.u1, piece.v1 + engage)] : sweepOf(piece, engage);
  const through = thickerThan(meet(swept, other.paths), TOUCH / 2);
  return through.length > 0 ? hitAt(other.source.id, through) : null;
}

/** All places the piece passes over: itself and each of its edges drawn out along +v. */
function sweepOf(piece: JudgedPiece, engage: number): Paths {
  const out: Path[] = [piece.ring];
  const ring = piece.ring;
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    const path = [a, b, { x: b.x, y: b.y + engage }, { x: a.x, y: a.y + engage }];
    const area = areaOf([path]);
    if (area !== 0) out.push(area > 0 ? path : path.reverse());
  }
  return out;
}

/** Walls, doors and kerbs, and tall cut-outs: names what a sweep would pass through, and where. */
function edgesThatStand(scene: Scene): (piece: JudgedPiece, engage: number) => Hit[] {
  const band = Math.max(50_000, um(scene.job.board.width));
  const bands = new Map<number, Edge[]>();
  const add = (au: number, av: number, bu: number, bv: number): void => {
    const edge = {
      u0: Math.min(au, bu),
      u1: Math.max(au, bu),
      v0: Math.min(av, bv),
      v1: Math.max(av, bv),
      line: [au, av, bu, bv] as const,
    };
    for (let k = Math.floor(edge.v0 / band); k <= Math.floor(edge.v1 / band); k++) {
      const list = bands.get(k);
      if (list) list.push(edge);
      else bands.set(k, [edge]);
    }
  };
  const sides = walkRing(scene.survey.outline);
  sides.forEach((side, i) => {
    const { kind } = scene.survey.sides[i]!;
    if (kind !== "wall" && kind !== "door" && kind !== "kerb") return;
    for (let k = 1; k < side.xs.length; k++)
      add(...intoRows(scene.turn, side.xs[k - 1]!, side.ys[k - 1]!), ...intoRows(scene.turn, side.xs[k]!, side.ys[k]!));
  });
  const tall = scene.field.cutouts.filter((c) => c.height === "tall").map((c) => c.raw);
  for (const ring of tall)
    for (let i = 0; i < ring.length; i++)
      add(ring[i]!.x, ring[i]!.y, ring[(i + 1) % ring.length]!.x, ring[(i + 1) % ring.length]!.y);
  return (piece, engage) => {
    const near: Edge[] = [];
    for (let k = Math.floor(piece.v0 / band); k <= Math.floor((piece.v1 + engage) / band); k++)
      for (const e of bands.get(k) ?? [])
        if (e.u0 < piece.u1 && e.u1 > piece.u0 && e.v0 < piece.v1 + engage && e.v1 > piece.v0) near.push(e);
    if (near.length === 0) return [];
    const swept = piece.plain ? [box(piece.u0, piece.v0, piece.u1, piece.v1 + engage)] : join(sweepOf(piece, engage));
    // What it stands in at rest, within the tolerance of a gap, the way in does not make worse.
    const way = minus(swept, piece.paths);
    const hits = thickerThan(meet(way, tall), TOUCH).map((path) => hitAt("cutout", [path]));
    // Out of the outline only counts where a side that stands is passed.
    for (const path of thickerThan(minus(way, scene.field.outline), TOUCH)) {
      // Sliding along it is no hindrance: the place must lie within what is swept, not on its edge.
      const places = touching(path, near).filter(
        ([u, v]) => insidePaths(swept, u, v) && toEdges(swept, u, v) > 2 * TOUCH,
      );
      if (places.length > 0) hits.push({ by: "wall", places });
    }
    return hits;
  };
}

interface Edge extends Bounds {
  line: readonly [number, number, number, number];
}

/** Places of a ring where it runs along something that stands. */
function touching(path: Path, near: Edge[]): [number, number][] {
  const places: [number, number][] = [];
  path.forEach((p, i) => {
    const q = path[(i + 1) % path.length]!;
    const length = Math.sqrt((p.x - q.x) * (p.x - q.x) + (p.y - q.y) * (p.y - q.y));
    const middle: [number, number] = [(p.x + q.x) / 2, (p.y + q.y) / 2];
    if (length <= 2 * TOUCH || !near.some(({ line }) => toSegment(...middle, ...line) <= 3 * TOUCH)) return;
    const steps = Math.ceil(length / PLACE_STEP_UM);
    for (let k = 0; k < steps; k++) {
      const t = (2 * k + 1) / (2 * steps);
      places.push([p.x + (q.x - p.x) * t, p.y + (q.y - p.y) * t]);
    }
  });
  return places;
}
