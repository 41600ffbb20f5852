import type { Job } from "../../job/job.ts";
import type { Piece } from "../bond/record.ts";

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

/** How many factory edges the piece has. */
export function needs(piece: Piece): number {
  return (piece.edges[0] === "ripped" ? 0 : 1) + (piece.edges[1] === "ripped" ? 0 : 1);
}

/** True where a part turned by 180 degrees still has its grooves on the right edges. */
export function canTurn(job: Job, piece: Piece): boolean {
  if (!job.board.reversible) return false;
  return job.board.grooves === "both" || job.board.grooves === "none" || needs(piece) === 0;
}

/** y of an unturned piece in its board. */
export function heightInBoard(piece: Piece, sizes: CutSizes): number {
  return Math.min(Math.max(0, piece.v0Um - piece.stripV0Um), sizes.boardWidthUm - piece.widthUm);
}
