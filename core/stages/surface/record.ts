import type { Finding } from "../../base/finding.ts";
import type { Xy } from "../../job/job.ts";

export type Xyz = readonly [x: number, y: number, z: number];
/** z = a x + b y + c, mm. */
export interface Plane {
  a: number;
  b: number;
  c: number;
  /** Slope in %, and direction of downhill in degrees counter-clockwise from +x (0 where level). */
  fall: number;
  towards: number;
}
export interface Facet {
  ring: Xy[];
  plane: Plane;
  /** Largest deviation from the facet's own minimum-zone plane, mm. */
  halfWidthMm: number;
  areaMm2: number;
}
/** Triangulated base with everything judged from it. Null in a plan without levels. Site frame, mm. */
export interface SurfaceRecord {
  points: Xyz[];
  /** Three indices into `points` a triangle, counter-clockwise, inside the outline and outside cut-outs. */
  triangles: number[];
  /** Triangles inside the outline but beyond the readings: heights carried on for water and volumes, nothing measured. */
  edgeTriangles: number[];
  plane: Plane;
  /** The certificate's weights sum to nothing with 1, x and y, their sizes to one; with z they give the half width. */
  zone: Plane & { halfWidthMm: number; points: Xyz[]; weights: number[] };
  straightedge: { lengthMm: number; gapMm: number; from: Xy; to: Xy; at: Xy } | null;
  facets: Facet[];
  puddles: { at: Xy; depthMm: number; areaMm2: number; volumeMm3: number; ring: Xy[] }[];
  /** Fall arrows for the drawing: the local fall at a place, %, and its downhill direction. */
  falls: { at: Xy; fall: number; towards: number }[];
  /** Largest distance between a point of the field and its nearest reading, mm. */
  spacingMm: number;
  verdict: "accept" | "prepare" | "not-proven" | "stop";
  /** The verdict on shape, falls and water alone, without what is declared or hidden. */
  shapeVerdict: "accept" | "prepare" | "not-proven";
}
export interface SurfaceStage {
  surface: SurfaceRecord | null;
  findings: Finding[];
}
