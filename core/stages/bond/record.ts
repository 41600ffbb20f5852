import type { Finding } from "../../base/finding.ts";
import type { Region } from "../../geometry/frame.ts";

export type EndKind = "factory" | "cut";
/** groove: the factory edge with its groove stands here for some length; plain: factory edge without groove; ripped: none of the factory edge is left. */
export type EdgeKind = "groove" | "plain" | "ripped";

export interface Piece {
  /** "p1", "p2", ... in order of row, then u. Index in the array is id - 1. */
  id: string;
  row: number;
  span: number;
  region: Region;
  u0Um: number;
  u1Um: number;
  v0Um: number;
  v1Um: number;
  lengthUm: number;
  widthUm: number;
  /** At least u, at greatest u. "factory" is a wish: cutting decides, and may only turn "factory" into "cut". */
  ends: [EndKind, EndKind];
  /** Lower edge, upper edge. */
  edges: [EdgeKind, EdgeKind];
  /** Row strip of the full board this piece is cut from. */
  stripV0Um: number;
  stripV1Um: number;
  /** Region is the rectangle of its extents. */
  plain: boolean;
  cutWhen: "ahead" | "measured";
}
export interface Joint {
  row: number;
  /** Middle of the end gap. */
  uUm: number;
  /** Indices into `pieces`: the one toward less u, the one toward greater u. */
  left: number;
  right: number;
}
export interface BondRecord {
  kind: "half" | "third" | "free" | "stack";
  /** Stock length the bond's lattice is made of, and u of the lattice's phase in the frame. */
  lengthUm: number;
  phaseUm: number;
  joints: Joint[];
  pieces: Piece[];
  reasons: { code: string; data: Record<string, number | string> }[];
  findings: Finding[];
}
