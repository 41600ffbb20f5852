/** Codes of this stage and the data their sentences need. Sentences: words/<language>/fixing.ts. */

/** What bars a place: an area, an edge, a thing that stands there, other clips, or a groove that ends too soon. */
export type Barring = "noDrill" | "slabEdge" | "baseJoint" | "cutout" | "wall" | "offSlab" | "clash" | "short";
export interface FixingFindings {
  /** A piece's edge gets fewer clips than it needs. */
  clips: { row: number; edge: "lower" | "upper"; got: number; needed: number; because: Barring; name: string };
  /** The first or last clip of an edge stands too far from its end. */
  clipEnd: { row: number; foundMm: number | null; limitMm: number; because: Barring; name: string };
  /** Two neighbouring clips stand too far apart. */
  clipSpacing: { row: number; foundMm: number | null; limitMm: number; because: Barring; name: string };
  /** A joint has no clip for one of its ends. */
  jointClip: { row: number; because: Barring; name: string };
  /** An end of a row cannot be screwed down. */
  endClip: { row: number; end: "left" | "right"; because: Barring; name: string };
  /** An edge that nothing holds. `barred`: it is wide enough for screws, but the base may not be drilled there. */
  oneEdge: {
    row: number;
    edge: "lower" | "upper";
    widthMm: number;
    needMm: number;
    lengthMm: number;
    barred: boolean;
  };
  /** The edge of the base at an open side is not known. */
  slabUnknown: { side: number; limitMm: number };
  /** Clips so near to a wall that the drill may not fit. */
  wallReach: { count: number; nearestMm: number; reachMm: number };
}
