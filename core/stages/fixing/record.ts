import type { Finding } from "../../base/finding.ts";

export type ClipKind = "start" | "seam" | "last" | "end";
export interface Clip {
  /** "c1", "c2", ... in order of seam, then u. */
  id: string;
  kind: ClipKind;
  /** Seam k lies below row k (seam 0 below row 0); an end clip carries its row. */
  seam: number;
  /** The anchor. */
  uUm: number;
  vUm: number;
  /** How far it may move along u: [<= 0, >= 0]. */
  playUm: [number, number];
  /** Indices into the bond's pieces, ascending. */
  holds: number[];
}
export type Held = "clips" | "screws" | "trim" | "none";
export interface FixingRecord {
  clips: Clip[];
  /** Lower and upper edge of each piece, by index. */
  heldBy: [Held, Held][];
  /** Screws through a board's face that hold a ripped edge. */
  screws: { piece: number; edge: 0 | 1; uUm: number; vUm: number }[];
  counts: { start: number; seam: number; last: number; end: number };
  findings: Finding[];
}
