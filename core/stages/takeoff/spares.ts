import type { Job } from "../../job/job.ts";
import type { BondRecord, Piece } from "../bond/record.ts";
import type { CuttingRecord } from "../cutting/record.ts";

/** An edge slants when it runs further than this both along and across the rows, um. */
const SLANT_UM = 1000;

/** A share of a count, rounded up to whole units; a share that is whole but for rounding stays. */
export function spareOf(need: number, share: number): number {
  return Math.max(0, Math.ceil(need * share - 1e-9));
}

/**
 * Spare boards of the whole job: the greater of `spares.boardsAtLeast` and
 * ceil(`spares.boards` x plain + `spares.boardsSlanting` x slanting), where slanting counts the boards that carry a part
 * of a piece with a slanting edge and plain the others. No boards, no spares.
 */
export function spareBoards(job: Job, bond: BondRecord, cutting: CuttingRecord): number {
  if (cutting.boards.length === 0) return 0;
  const slanting = cutting.boards.filter((board) =>
    board.parts.some((part) => slants(bond.pieces[part.piece]!)),
  ).length;
  const plain = cutting.boards.length - slanting;
  const share = plain * job.spares.boards + slanting * job.spares.boardsSlanting;
  return Math.max(job.spares.boardsAtLeast, spareOf(1, share));
}

/** A piece with an edge that runs more than 1 mm both along and across the rows. */
export function slants(piece: Piece): boolean {
  if (piece.plain) return false;
  for (const ring of [piece.region.outer, ...piece.region.holes]) {
    for (let i = 0; i < ring.length; i++) {
      const [u0, v0] = ring[i]!;
      const [u1, v1] = ring[(i + 1) % ring.length]!;
      if (Math.abs(u1 - u0) > SLANT_UM && Math.abs(v1 - v0) > SLANT_UM) return true;
    }
  }
  return false;
}
