import type { Job } from "../../job/job.ts";
import type { BondRecord, Piece } from "../bond/record.ts";
import { shelvesOf } from "./lanes.ts";
import { type CutSizes, canTurn, heightInBoard, needs, type Unit } from "./unit.ts";

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
