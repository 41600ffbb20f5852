import type { Finding } from "../../base/finding.ts";
import type { Xy } from "../../job/job.ts";

export interface TakeoffItem {
  /**
   * "board-1500", "clip-start|seam|last|end", "fixing-45" (least length in mm), "screw", "trim-2400", "trim-screw",
   * "fill-1" (number of the material in the job), "primer", "bit".
   */
  item: string;
  /** Designation and sizes without a language: "clip-seam 120", "fixing 6 x 45"; papers put words to the item. */
  name: string;
  unit: "pc" | "m" | "m2" | "l" | "kg" | "bag";
  need: number;
  spare: number;
  pack: number;
  buy: number;
  /** Boards taken from the fitter's own yard, not bought; left out where there are none. */
  owned?: number;
  /** Minor units a `unit`; null where nobody has given a price. */
  price: number | null;
}
export interface TrimPart {
  from: Xy;
  to: Xy;
  /** Outer length, mm (along the arc on a curved side). */
  length: number;
  /** Degrees off square at `from` and `to`: 0 butt, 45 at a right-angled corner, negative at a reflex corner. */
  mitres: [number, number];
}
export interface TakeoffRecord {
  items: TakeoffItem[];
  trims: { side: number; parts: TrimPart[] }[];
  /** Depth of the hole for each of the fixing's clips, mm, as far as known: the least length of its fixing. */
  depthsMm: number[];
  totalMinor: number;
  /** Item codes without a price. */
  unpriced: string[];
  findings: Finding[];
}
