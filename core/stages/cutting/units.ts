import type { Job } from "../../job/job.ts";
import type { BondRecord, Piece } from "../bond/record.ts";
import { shelvesOf } from "./lanes.ts";

/** A piece inside a unit: y in the board, x from the unit's left end. */
export interface UnitPart {
  piece: number;
  xUm: number;
  yUm: number;
  turned: boolean;
}
/** What takes a board's whole cross-section for a length: one piece, or several ripped strips side by side. */
export interface Unit {
  lengthUm: number;
  parts: UnitPart[];
  /** Least piece index: where in the laying order it is first wanted. */
  first: number;
  /** May be turned by 180 degrees as a whole. */
  turnable: boolean;
  /** How far the left and right end run to the right from lower to upper edge; 0 where square, curved or notched. */
  rises: [left: number, right: number];
}
export interface CutSizes {
  boardWidthUm: number;
  kerfUm: number;
}

/**
 * All pieces as units, by first piece. Strips that can share a cross-section are put on shelves; every other piece stands
 * alone, where its strip has it.
 */
export function unitsOf(job: Job, bond: BondRecord, sizes: CutSizes): Unit[] {
  const alone: Unit[] = [];
  const strips: number[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (const p of bond.pieces) least = Math.min(least, p.widthUm);
  for (let i = 0; i < bond.pieces.length; i++) {
    const piece = bond.pieces[i]!;
    const shares = needs(piece) < 2 && piece.widthUm + sizes.kerfUm + least <= sizes.boardWidthUm;
    if (shares) strips.push(i);
    else alone.push(single(job, piece, i, sizes));
  }
  if (strips.length === 0) return alone;
  const units = [...alone, ...shelvesOf(job, bond, strips, sizes)];
  return units.sort((a, b) => a.first - b.first);
}

/** How many factory edges the piece has. */
export function needs(piece: Piece): number {
  return (piece.edges[0] === "ripped" ? 0 : 1) + (piece.edges[1] === "ripped" ? 0 : 1);
}

/** True where a part turned by 180 degrees still has its grooves on the right edges. */
export function canTurn(job: Job, piece: Piece): boolean {
  if (!job.board.reversible) return false;
  return job.board.grooves === "both" || job.board.grooves === "none" || needs(piece) === 0;
}

/** A unit of one piece, unturned at its own height in the board. */
function single(job: Job, piece: Piece, index: number, sizes: CutSizes): Unit {
  return {
    lengthUm: piece.lengthUm,
    parts: [{ piece: index, xUm: 0, yUm: heightInBoard(piece, sizes), turned: false }],
    first: index,
    turnable: canTurn(job, piece),
    rises: piece.plain ? [0, 0] : risesOf(piece, sizes.boardWidthUm),
  };
}

/** y of an unturned piece in its board. */
export function heightInBoard(piece: Piece, sizes: CutSizes): number {
  return Math.min(Math.max(0, piece.v0Um - piece.stripV0Um), sizes.boardWidthUm - piece.widthUm);
}

/** Straight slanting ends of a piece as wide as the board: every corner lies on one of the two edges. Else square boxes. */
function risesOf(piece: Piece, boardWidthUm: number): [number, number] {
  if (piece.widthUm !== boardWidthUm || piece.region.holes.length > 0) return [0, 0];
  let left0 = Number.POSITIVE_INFINITY;
  let left1 = Number.POSITIVE_INFINITY;
  let right0 = Number.NEGATIVE_INFINITY;
  let right1 = Number.NEGATIVE_INFINITY;
  for (const [u, v] of piece.region.outer) {
    if (v === piece.v0Um) {
      left0 = Math.min(left0, u);
      right0 = Math.max(right0, u);
    } else if (v === piece.v1Um) {
      left1 = Math.min(left1, u);
      right1 = Math.max(right1, u);
    } else return [0, 0];
  }
  return [square(left1 - left0), square(right1 - right0)];
}

/** A rise no larger than the rounding of corners is none. */
function square(riseUm: number): number {
  return Math.abs(riseUm) <= 3 ? 0 : riseUm;
}
