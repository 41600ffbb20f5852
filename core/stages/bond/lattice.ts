import { toUm } from "../../base/units.ts";
import type { Job } from "../../job/job.ts";

/**
 * The bond's regular joints. A joint is held by the end of the piece on its left, a whole micrometre `aUm`; the piece on its
 * right begins `endUm` further, and its middle is aUm + endUm / 2.
 */
export interface Lattice {
  kind: "half" | "third" | "stack";
  boardUm: number;
  endUm: number;
  /** Board and end gap. */
  pitchUm: number;
  /** Left piece's end of row 0's joints, any one of them. */
  phaseUm: number;
  minPieceUm: number;
  /** Least distance between joints of neighbouring rows; 0 where the bond asks for none. */
  staggerUm: number;
}

/** The lattice of the longest board to be had; the phase is still to be set. */
export function latticeFor(job: Job): Lattice {
  const kind = job.bond.kind === "free" ? "half" : job.bond.kind;
  const boardUm = longestBoardUm(job);
  const endUm = toUm(job.gaps.end);
  const pitchUm = boardUm + endUm;
  const own = kind === "half" ? Math.floor(pitchUm / 2) : kind === "third" ? Math.floor(pitchUm / 3) : 0;
  return {
    kind,
    boardUm,
    endUm,
    pitchUm,
    phaseUm: 0,
    minPieceUm: toUm(job.bond.minPiece),
    // A micrometre for the rounding of a half or a third of the pitch.
    staggerUm: Math.max(0, Math.min(toUm(job.bond.stagger), own - 1)),
  };
}

/**
 * Longest board every row may count on, um: the longest there is no end of; where all are limited, the longest not used up.
 * A longer length of which a few are at hand is cut up where that helps, but no row is laid out for it.
 */
export function longestBoardUm(job: Job): number {
  const { lengths } = job.board;
  const endless = lengths.filter((l) => l.stock === null);
  const atHand = lengths.filter((l) => l.stock !== 0);
  let longest = 0;
  for (const { length } of endless.length > 0 ? endless : atHand.length > 0 ? atHand : lengths)
    longest = Math.max(longest, toUm(length));
  return longest;
}

/** How far a row's joints lie beyond row 0's. */
export function rowShift(lattice: Lattice, row: number): number {
  if (lattice.kind === "half") return row % 2 === 0 ? 0 : Math.round(lattice.pitchUm / 2);
  if (lattice.kind === "third") return Math.round(((row % 3) * lattice.pitchUm) / 3);
  return 0;
}

/** Remainder that is never negative. */
export function modulo(value: number, by: number): number {
  const rest = value % by;
  return rest < 0 ? rest + by : rest;
}

/**
 * The lattice's joints that a span longer than a board meets, ascending: all whose gap lies at least partly inside. The
 * outermost two may leave less than minPiece, or nothing.
 */
export function latticeJoints(lattice: Lattice, row: number, u0: number, u1: number): number[] {
  const { pitchUm, endUm, phaseUm } = lattice;
  const first = u0 - endUm + modulo(phaseUm + rowShift(lattice, row) - (u0 - endUm), pitchUm);
  const out: number[] = [];
  for (let a = first === u0 - endUm ? first + pitchUm : first; a < u1; a += pitchUm) out.push(a);
  return out;
}

/** The lattice joint nearest to a place. */
export function nearestLattice(lattice: Lattice, row: number, a: number): number {
  const over = modulo(a - lattice.phaseUm - rowShift(lattice, row), lattice.pitchUm);
  return over <= lattice.pitchUm / 2 ? a - over : a - over + lattice.pitchUm;
}
