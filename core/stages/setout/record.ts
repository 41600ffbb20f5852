import type { Finding } from "../../base/finding.ts";
import type { Frame, Region, Ring, Uv } from "../../geometry/frame.ts";
import type { SideKind } from "../../job/job.ts";

/** The site turned once into the row frame: whole micrometres, arcs flattened. Raw: not yet moved by any gap. */
export interface SiteUv {
  outline: Ring;
  /** Kind and job side of each edge of `outline` (edge i runs from point i to i + 1). */
  edges: { kind: SideKind; source: number; gapUm: number }[];
  cutouts: { name: string; ring: Ring; gapUm: number; height: "tall" | "flush" | "removable" }[];
  noDrill: { name: string; ring: Ring }[];
  keepClear: { name: string; ring: Ring }[];
  baseJoints: Uv[][];
  slab: Ring | null;
}
export interface Row {
  row: number;
  /** The full board's strip, lower and upper edge. */
  v0Um: number;
  v1Um: number;
  /** Indices into `spans`, by least u. */
  spans: number[];
}
/** An unbroken part of field and strip. */
export interface Span {
  row: number;
  region: Region;
  u0Um: number;
  u1Um: number;
  v0Um: number;
  v1Um: number;
  /** True where the region is the rectangle of its extents (the common case, and the fast path). */
  plain: boolean;
  /** Each of these closed intervals of u must contain a joint's middle (thin web beside a post, post enclosed by the span). */
  mustJoint: { from: number; to: number; why: "web" | "enclosed"; name: string }[];
  /** Where something was left out: the extent of the unbroken part of field and strip it was cut from. */
  cutFrom?: { u0Um: number; u1Um: number };
  /** Open intervals of u where no joint's middle may lie (a joint there would leave a needle, or lies in a keep-clear area). */
  noJoint: { from: number; to: number }[];
}
export interface SetoutRecord {
  frame: Frame;
  site: SiteUv;
  /** The outline moved inward by each side's gap, less the grown cut-outs; may be in parts. */
  field: Region[];
  fieldAreaUm2: number;
  boardWidthUm: number;
  /** The row gap chosen within `gaps.sideRange`. */
  sideGapUm: number;
  rows: Row[];
  spans: Span[];
  /** Why this start line, first row and direction: codes with data for words/. */
  reasons: { code: string; data: Record<string, number | string> }[];
  findings: Finding[];
}
