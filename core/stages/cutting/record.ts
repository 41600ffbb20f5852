import type { Finding } from "../../base/finding.ts";
import type { Ring } from "../../geometry/frame.ts";

/** A part in a board's own frame: x from its left end, y from its lower edge (grooves as listed), whole micrometres. */
export interface Part {
  piece: number;
  at: [number, number];
  size: [number, number];
  turned: boolean;
  /** In the board's frame, where the part is not the rectangle at/size. */
  ring: Ring | null;
}
export interface Board {
  /** "b1", "b2", ... in order of first use in the laying direction. */
  id: string;
  lengthUm: number;
  parts: Part[];
  offcuts: { at: [number, number]; size: [number, number] }[];
}
export interface CuttingRecord {
  boards: Board[];
  /** Index of the board of each piece. */
  boardOf: number[];
  /** Ends as they are cut in fact, by piece. */
  ends: [("factory" | "cut"), ("factory" | "cut")][];
  boardsAtLeast: number;
  /** Integer duals: an item length (piece plus kerf, mm as in the plan) and its dual; valid when no pattern sums above `scale`. */
  bound: { scope: "pieces" | "joints"; scale: number; duals: [lengthMm: number, dual: number][] };
  cuts: number;
  rips: number;
  wasteUm2: number;
  massKg: number;
  findings: Finding[];
}
