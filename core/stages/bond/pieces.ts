import type { Finding } from "../../base/finding.ts";
import { toMm, toUm } from "../../base/units.ts";
import { type Region, type Ring, toSite } from "../../geometry/frame.ts";
import { boxOf, isRectangle, rectangle, regionArea } from "../../geometry/ring.ts";
import { clipSlabs, type Strip } from "../../geometry/strips.ts";
import type { Job } from "../../job/job.ts";
import type { SetoutRecord, Span } from "../setout/record.ts";
import type { EdgeKind, EndKind, Joint, Piece } from "./record.ts";

/** A piece narrower or shorter than this in all its extent is left out and named; the set-out holds spans to the same. */
const NEEDLE_UM = 20_000;
/** Below this nothing is named, um2 (0.1 mm2). */
const NOTHING_UM2 = 1e5;
/** A factory edge shorter than this holds nothing and counts as ripped, um. */
const EDGE_UM = 1000;
const NAME_EVERY_UM = 600_000;

export interface Pieces {
  pieces: Piece[];
  joints: Joint[];
  findings: Finding[];
}

/**
 * Cuts every span at its joints. `joints[span]`: the left pieces' ends, ascending whole micrometres. Pieces come by row,
 * then u; where a joint parts a span with gaps in it, each pair that faces across the joint is one joint.
 * Cost: pieces, and for spans that are not rectangles their edges as well.
 */
export function cutPieces(job: Job, setout: SetoutRecord, joints: readonly (readonly number[])[]): Pieces {
  const endUm = toUm(job.gaps.end);
  const out: Pieces = { pieces: [], joints: [], findings: [] };
  for (const row of setout.rows) {
    const drafts: Piece[] = [];
    const pairs: { a: number; left: Piece; right: Piece }[] = [];
    for (const index of row.spans) {
      const span = setout.spans[index]!;
      cutSpan(job, setout, span, index, [row.v0Um, row.v1Um], joints[index]!, endUm, drafts, pairs, out.findings);
    }
    if (row.spans.length > 1) drafts.sort((a, b) => a.u0Um - b.u0Um || a.v0Um - b.v0Um);
    for (const piece of drafts) {
      out.pieces.push(piece);
      piece.id = `p${out.pieces.length}`;
    }
    const indexOf = (piece: Piece) => Number(piece.id.slice(1)) - 1;
    if (row.spans.length > 1) pairs.sort((a, b) => a.a - b.a || a.left.v0Um - b.left.v0Um);
    for (const { a, left, right } of pairs) {
      out.joints.push({ row: row.row, uUm: a + endUm / 2, left: indexOf(left), right: indexOf(right) });
    }
  }
  nameNarrowAndShort(job, setout, out);
  return out;
}

function cutSpan(
  job: Job,
  setout: SetoutRecord,
  span: Span,
  index: number,
  strip: Strip,
  joints: readonly number[],
  endUm: number,
  drafts: Piece[],
  pairs: { a: number; left: Piece; right: Piece }[],
  findings: Finding[],
): void {
  const slabs: Strip[] = [];
  let from = span.u0Um;
  for (const a of joints) {
    slabs.push([from, a]);
    from = a + endUm;
  }
  slabs.push([from, span.u1Um]);
  if (span.plain) {
    let before: Piece | null = null;
    slabs.forEach(([u0, u1], k) => {
      const ring = rectangle(u0, span.v0Um, u1, span.v1Um);
      const piece = draft(job, setout, span, index, strip, { outer: ring, holes: [] }, k === slabs.length - 1);
      drafts.push(piece);
      if (before !== null) pairs.push({ a: joints[k - 1]!, left: before, right: piece });
      before = piece;
    });
    return;
  }
  const cut = slabs.length === 1 ? [[span.region]] : clipSlabs([span.region], slabs);
  const kept = cut.map((regions, k) => {
    const pieces: Piece[] = [];
    for (const region of regions) {
      const box = boxOf(region.outer);
      if (box.u1 - box.u0 < NEEDLE_UM || box.v1 - box.v0 < NEEDLE_UM) nameScrap(setout, span.row, region, findings);
      else pieces.push(draft(job, setout, span, index, strip, region, k === slabs.length - 1));
    }
    return pieces;
  });
  kept.forEach((pieces, k) => {
    drafts.push(...pieces);
    if (k === 0) return;
    const a = joints[k - 1]!;
    for (const left of kept[k - 1]!) {
      for (const right of pieces) if (face(left.region, right.region, a, a + endUm)) pairs.push({ a, left, right });
    }
  });
}

function draft(
  job: Job,
  setout: SetoutRecord,
  span: Span,
  index: number,
  strip: Strip,
  region: Region,
  closes: boolean,
): Piece {
  const plain = region.holes.length === 0 && isRectangle(region.outer);
  const box = boxOf(region.outer);
  const { grooves } = job.board;
  const upperLeft = plain ? box.v1 === strip[1] : runsAlong(region.outer, strip[1]);
  const lowerLeft = plain ? box.v0 === strip[0] : runsAlong(region.outer, strip[0]);
  const lower: EdgeKind = !lowerLeft ? "ripped" : grooves === "both" || grooves === "lower" ? "groove" : "plain";
  const upper: EdgeKind = !upperLeft ? "ripped" : grooves === "both" || grooves === "upper" ? "groove" : "plain";
  const ends: [EndKind, EndKind] = plain
    ? ["factory", "factory"]
    : [squareEnd(region.outer, box.u0, box), squareEnd(region.outer, box.u1, box)];
  const whole = plain && setout.boardWidthUm === box.v1 - box.v0 && isStockLength(job, box.u1 - box.u0);
  const lastRip = span.row === setout.rows.length - 1 && upper === "ripped";
  return {
    id: "",
    row: span.row,
    span: index,
    region,
    u0Um: box.u0,
    u1Um: box.u1,
    v0Um: box.v0,
    v1Um: box.v1,
    lengthUm: box.u1 - box.u0,
    widthUm: box.v1 - box.v0,
    ends,
    edges: [lower, upper],
    stripV0Um: strip[0],
    stripV1Um: strip[1],
    plain,
    cutWhen: (closes && !whole) || lastRip ? "measured" : "ahead",
  };
}

function isStockLength(job: Job, lengthUm: number): boolean {
  return job.board.lengths.some((l) => toUm(l.length) === lengthUm);
}

/** Whether some run of the ring lies on a level of v. */
function runsAlong(ring: Ring, v: number): boolean {
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    if (a[1] === v && b[1] === v && Math.abs(b[0] - a[0]) >= EDGE_UM) return true;
  }
  return false;
}

/** Factory where one straight edge across the row ends the piece at this level of u. */
function squareEnd(ring: Ring, u: number, box: { v0: number; v1: number }): EndKind {
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    if (a[0] === u && b[0] === u && Math.abs(b[1] - a[1]) === box.v1 - box.v0) return "factory";
  }
  return "cut";
}

/** Whether two pieces have ends that overlap across a joint. */
function face(left: Region, right: Region, uLeft: number, uRight: number): boolean {
  const ends = (ring: Ring, u: number): [number, number][] => {
    const out: [number, number][] = [];
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      if (a[0] === u && b[0] === u) out.push([Math.min(a[1], b[1]), Math.max(a[1], b[1])]);
    });
    return out;
  };
  const far = ends(right.outer, uRight);
  return ends(left.outer, uLeft).some(([lo, hi]) => far.some(([a, b]) => Math.min(hi, b) > Math.max(lo, a)));
}

function nameScrap(setout: SetoutRecord, row: number, region: Region, findings: Finding[]): void {
  const areaUm2 = regionArea(region);
  if (areaUm2 < NOTHING_UM2) return;
  const box = boxOf(region.outer);
  const lengthMm = toMm(Math.max(box.u1 - box.u0, box.v1 - box.v0));
  const widthMm = toMm(Math.min(box.u1 - box.u0, box.v1 - box.v0));
  const count = Math.max(1, Math.ceil((box.u1 - box.u0) / NAME_EVERY_UM));
  for (let k = 0; k < count; k++) {
    const u = box.u0 + ((box.u1 - box.u0) * (k + 0.5)) / count;
    findings.push({
      code: "scrapLeftOut",
      rule: "cover",
      level: "warn",
      at: toSite(setout.frame, u, (box.v0 + box.v1) / 2),
      found: widthMm,
      limit: toMm(NEEDLE_UM),
      releasedBy: null,
      data: { row, lengthMm, widthMm, areaMm2: areaUm2 / 1e6 },
    });
  }
}

function nameNarrowAndShort(job: Job, setout: SetoutRecord, out: Pieces): void {
  const minRip = toUm(job.bond.minRip);
  const minPiece = toUm(job.bond.minPiece);
  const jointed = new Set<number>();
  for (const joint of out.joints) jointed.add(joint.left).add(joint.right);
  out.pieces.forEach((piece, i) => {
    const v = (piece.v0Um + piece.v1Um) / 2;
    if (piece.widthUm < minRip) {
      const widthMm = toMm(piece.widthUm);
      const count = Math.max(1, Math.ceil(piece.lengthUm / NAME_EVERY_UM));
      for (let k = 0; k < count; k++) {
        out.findings.push({
          code: "pieceNarrow",
          rule: "minRip",
          level: "warn",
          at: toSite(setout.frame, piece.u0Um + (piece.lengthUm * (k + 0.5)) / count, v),
          found: widthMm,
          limit: job.bond.minRip,
          releasedBy: null,
          data: { row: piece.row, widthMm, limitMm: job.bond.minRip },
        });
      }
    }
    if (piece.lengthUm < minPiece && jointed.has(i)) {
      const lengthMm = toMm(piece.lengthUm);
      out.findings.push({
        code: "pieceShort",
        rule: "minPiece",
        level: "warn",
        at: toSite(setout.frame, (piece.u0Um + piece.u1Um) / 2, v),
        found: lengthMm,
        limit: job.bond.minPiece,
        releasedBy: null,
        data: { row: piece.row, lengthMm, limitMm: job.bond.minPiece },
      });
    }
  });
}
