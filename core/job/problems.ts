/** What can be wrong with a job that its schema cannot say: fields that contradict each other, marks and ties. */
export interface JobProblems {
  noOutline: Record<string, never>;
  outlineTwice: Record<string, never>;
  sidesCount: { sides: number; corners: number };
  /** The value here must not be more than the one at `than`. */
  moreThan: { what: string; found: number; than: string; limit: number; unit: string };
  sideGapOutsideRange: { side: number; least: number; most: number };
  offsetSide: { side: number; sides: number };
  fewMarks: { found: number };
  markTwice: { mark: string; first: number };
  unknownMark: { mark: string; nearest: string | null; known: string[] };
  lengthTwice: { length: number; first: number };
  tieToItself: { mark: string };
}
