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
/** How a piece's demand on a board's length is measured: see demand.ts. */
export type BoundBy = "area" | "edges" | "middle";
export interface CuttingRecord {
  boards: Board[];
  /** Index of the board of each piece. */
  boardOf: number[];
  /** Ends as they are cut in fact, by piece. */
  ends: ["factory" | "cut", "factory" | "cut"][];
  boardsAtLeast: number;
  /**
   * Why no plan needs fewer boards.
   * scope "pieces": a demand (mm, piece plus kerf, measured `by`) and its whole-number dual. No filling of the longest board
   * plus a kerf with demands, any number of each, has duals above `scale`; a piece may take the dual of any listed demand
   * not above its own. Then boardsAtLeast = ceil(sum of the pieces' duals / scale).
   * scope "joints": `scale` is the most length one board can cover and `duals` lists what each span needs, [mm, how many]:
   * boardsAtLeast = ceil(sum(mm * how many) / scale). See joints-bound.ts.
   */
  bound: { scope: "pieces" | "joints"; by: BoundBy; scale: number; duals: [lengthMm: number, dual: number][] };
  cuts: number;
  rips: number;
  wasteUm2: number;
  massKg: number;
  findings: Finding[];
}
