import type { PlanRecord } from "../core/plan/record.ts";
import type { ClipKind } from "../core/stages/fixing/record.ts";
import { firstRow } from "./drawing/setout.ts";
import { type Cut, cutsOf } from "./pieces.ts";

/** A clip on a card: distance along the row from the card's zero, whole mm. */
export interface CardClip {
  clip: number;
  kind: ClipKind;
  alongMm: number;
  depthMm: number;
}
/** What one card says: a stretch of one row, measured from the left end of its first piece. */
export interface RowCard {
  row: number;
  /** Card `number` of `of` for this row. */
  number: number;
  of: number;
  first: boolean;
  last: boolean;
  /** Lower and upper edge of the row from the datum, mm. */
  nearMm: number;
  farMm: number;
  /** Left end of the first piece, and right end of the last, um along the rows. */
  u0Um: number;
  u1Um: number;
  /** Zero of the card from the left end of the row before, mm, positive to the right; null for the first row. */
  zeroFrom: { row: number; mm: number } | null;
  pieces: Cut[];
  /** Ends of the pieces along the row from the zero, mm: [left, right] for each. */
  spansMm: [number, number][];
  /** Middles of the joints, mm from the zero. */
  jointsMm: number[];
  /** "row": the row itself; "far": the clips on its far edge, which are set on a line of their own before the row lies. */
  part: "row" | "far";
  near: CardClip[];
  far: CardClip[];
  ends: CardClip[];
  /** Screws through the board that hold a ripped edge, mm from the zero. */
  screwsMm: number[];
  /** The row's far edge is checked against the datum at both ends. */
  check: boolean;
}

/** Most pieces on a card: more would print too small to read on site. */
const PIECES_A_CARD = 5;
/** Most clip marks along one edge of a card. */
const CLIPS_A_CARD = 34;

/**
 * The cards of a plan, row by row, left to right. Every piece and screw is on one row card, every clip on one card
 * (those of a far edge on a card of their own, left out while drilling is not released); a stretch never
 * crosses a gap in the row, so its tape lies on boards from zero to end. Cost: linear in pieces and clips.
 */
export function rowCardsOf(record: PlanRecord): RowCard[] {
  const { bond, setout, laying } = record;
  const cuts = cutsOf(record);
  const datumUm = firstRow(record)?.vUm ?? 0;
  const onPiece = clipsByPiece(record);
  const screws = screwsByPiece(record);
  const checked = new Set(laying.checkLines.map((line) => line.row));
  const byRow = new Map<number, number[]>();
  bond.pieces.forEach((piece, i) => {
    const list = byRow.get(piece.row);
    if (list) list.push(i);
    else byRow.set(piece.row, [i]);
  });
  const joints = new Map<number, number[]>();
  for (const joint of bond.joints) joints.set(joint.right, [...(joints.get(joint.right) ?? []), joint.uUm]);
  const rows = setout.rows.filter((row) => byRow.has(row.row));
  const cards: RowCard[] = [];
  for (const [r, row] of rows.entries()) {
    const members = byRow.get(row.row)!;
    const nearUm = Math.min(...members.map((i) => bond.pieces[i]!.v0Um));
    const farUm = Math.max(...members.map((i) => bond.pieces[i]!.v1Um));
    const below = rows[r - 1];
    const endUm = below ? Math.min(...byRow.get(below.row)!.map((i) => bond.pieces[i]!.u0Um)) : 0;
    const stretches = stretchesOf(record, members, onPiece);
    const own: RowCard[] = [];
    for (const stretch of stretches) {
      const u0Um = Math.min(...stretch.map((i) => bond.pieces[i]!.u0Um));
      const along = (um: number): number => Math.round((um - u0Um) / 1000) + 0;
      const clips = stretch
        .flatMap((i) => onPiece.get(i) ?? [])
        .sort((a, b) => record.fixing.clips[a]!.uUm - record.fixing.clips[b]!.uUm || a - b);
      const marks = clips.map((clip): CardClip & { seam: number } => {
        const { kind, uUm, seam } = record.fixing.clips[clip]!;
        return {
          clip,
          kind,
          seam,
          alongMm: along(uUm),
          depthMm: record.takeoff.depthsMm[clip] ?? record.job.clips.fixing.embed,
        };
      });
      const plain = ({ clip, kind, alongMm, depthMm }: CardClip): CardClip => ({ clip, kind, alongMm, depthMm });
      const far = marks.filter((m) => m.kind !== "end" && m.seam !== row.row).map(plain);
      const card: RowCard = {
        row: row.row,
        number: 0,
        of: 0,
        part: "row",
        first: r === 0,
        last: r === rows.length - 1,
        nearMm: Math.round((nearUm - datumUm) / 1000) + 0,
        farMm: Math.round((farUm - datumUm) / 1000) + 0,
        u0Um,
        zeroFrom: below ? { row: below.row, mm: along(endUm) === 0 ? 0 : -along(endUm) } : null,
        u1Um: Math.max(...stretch.map((i) => bond.pieces[i]!.u1Um)),
        pieces: stretch.map((i) => cuts[i]!),
        spansMm: stretch.map((i) => [along(bond.pieces[i]!.u0Um), along(bond.pieces[i]!.u1Um)]),
        jointsMm: bond.joints
          .filter((j) => j.row === row.row && stretch.includes(j.right) && stretch.includes(j.left))
          .map((j) => along(j.uUm)),
        near: marks.filter((m) => m.kind !== "end" && m.seam === row.row).map(plain),
        far: [],
        ends: marks.filter((m) => m.kind === "end").map(plain),
        screwsMm: stretch.flatMap((i) => screws.get(i) ?? []).map(along),
        check: checked.has(row.row),
      };
      if (far.length > 0 && record.site.drillingReleased)
        own.push({ ...card, part: "far", near: [], far, ends: [], screwsMm: [] });
      own.push(card);
    }
    own.forEach((card, k) => void cards.push({ ...card, number: k + 1, of: own.length }));
  }
  return cards;
}

/** Each clip under one piece: of the row it is set before, else of the row it closes. */
function clipsByPiece(record: PlanRecord): Map<number, number[]> {
  const out = new Map<number, number[]>();
  record.fixing.clips.forEach((clip, index) => {
    const own = clip.holds.find((i) => record.bond.pieces[i]!.row === clip.seam) ?? clip.holds[0];
    if (own === undefined) return;
    const list = out.get(own);
    if (list) list.push(index);
    else out.set(own, [index]);
  });
  return out;
}

function screwsByPiece(record: PlanRecord): Map<number, number[]> {
  const out = new Map<number, number[]>();
  for (const screw of record.fixing.screws) {
    const list = out.get(screw.piece);
    if (list) list.push(screw.uUm);
    else out.set(screw.piece, [screw.uUm]);
  }
  return out;
}

/** Pieces of a row in stretches: unbroken, and few enough to print large. */
function stretchesOf(record: PlanRecord, members: readonly number[], onPiece: Map<number, number[]>): number[][] {
  const out: number[][] = [];
  let stretch: number[] = [];
  let near = 0;
  let far = 0;
  for (const i of members) {
    const piece = record.bond.pieces[i]!;
    const clips = (onPiece.get(i) ?? [])
      .map((clip) => record.fixing.clips[clip]!)
      .filter((clip) => clip.kind !== "end");
    const farHere = clips.filter((clip) => clip.seam !== piece.row).length;
    const before = stretch[stretch.length - 1];
    const broken = before !== undefined && record.bond.pieces[before]!.span !== piece.span;
    const crowded = near + clips.length - farHere > CLIPS_A_CARD || far + farHere > CLIPS_A_CARD;
    if (stretch.length > 0 && (broken || stretch.length >= PIECES_A_CARD || crowded)) {
      out.push(stretch);
      stretch = [];
      near = 0;
      far = 0;
    }
    stretch.push(i);
    near += clips.length - farHere;
    far += farHere;
  }
  if (stretch.length > 0) out.push(stretch);
  return out;
}
