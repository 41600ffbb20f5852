import type { Finding } from "../../base/finding.ts";
import type { Side, SideKind, Vertex, Xy } from "../../job/job.ts";

/** One tape reading after adjustment, mm. */
export interface TieResult {
  from: string;
  to: string;
  measuredMm: number;
  adjustedMm: number;
  residualMm: number;
  /** Standard deviation of the adjusted distance. */
  sigmaMm: number;
  /** Standardised residual (Baarda); null where the reading is not controlled. */
  w: number | null;
  /** True for the reading the test names as misread. */
  doubtful: boolean;
}
export interface Adjustment {
  marks: { name: string; xMm: number; yMm: number; sigmaXMm: number; sigmaYMm: number }[];
  ties: TieResult[];
  redundancy: number;
  /** A-posteriori standard deviation of unit weight; null without redundancy. */
  s0: number | null;
}
export interface SurveySide extends Side {
  kind: SideKind;
  /** The gap that holds here, mm, defaults resolved. */
  gapMm: number;
  /** Index of the side in the job as written (a clockwise outline is turned round; wall offsets split a side). */
  source: number;
}
export interface SurveyCutout {
  name: string;
  ring: Vertex[];
  gapMm: number;
  height: "tall" | "flush" | "removable";
}
export interface SurveyArea {
  name: string;
  ring: Vertex[];
}
/** The site as measured: rings closed by themselves, all counter-clockwise, simple, mm, bulges kept. */
export interface SurveyRecord {
  outline: Vertex[];
  /** Side i runs from vertex i to i + 1; as many as vertices. */
  sides: SurveySide[];
  cutouts: SurveyCutout[];
  noDrill: SurveyArea[];
  keepClear: SurveyArea[];
  loose: (SurveyArea & { kind: string })[];
  baseJoints: Xy[][];
  slab: Vertex[] | null;
  /** Levels that count, in the order given, mm. */
  levels: { xMm: number; yMm: number; zMm: number }[];
  straightedges: { from: Xy; to: Xy; gapMm: number }[];
  adjustment: Adjustment | null;
  /** Area inside the outline, arcs flattened; and the same less all cut-outs. */
  areaMm2: number;
  netAreaMm2: number;
  findings: Finding[];
}
