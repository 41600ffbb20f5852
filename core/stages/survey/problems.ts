/** What can be wrong with the geometry of a site: the file is refused, with the place and what to do. Figures mm unless named. */
export interface SiteProblems {
  fewCorners: { found: number };
  repeatedCorner: { corner: number; again: number; x: number; y: number; closing: boolean };
  spike: { corner: number; x: number; y: number };
  bulgeTooGreat: { corner: number; bulge: number; limit: number };
  ringCrosses: { how: "crosses" | "touches"; sideA: number; sideB: number; x: number; y: number };
  noArea: { areaMm2: number; limitMm2: number };
  tooWide: { found: number; limit: number };
  /** So far from the outline that it cannot belong to the same site. */
  tooFar: { x: number; y: number; limit: number };
  /** The least number of boards that can cover it. */
  tooManyBoards: { boards: number; limit: number; areaM2: number };
  /** The least number of clips, by the area and the greatest distance between two, centre to centre. */
  tooManyClips: { clips: number; limit: number; areaM2: number; apart: number };
  /** A strip no board fits into, and far too long to name all of it. */
  tooThin: { widthMm: number; lengthM: number; limitM: number };
  tooManyArcPoints: { limit: number };
  cutoutOutside: { name: string };
  cutoutsCoverAll: { cutouts: number };
  offsetOnArc: { side: number };
  offsetBeyond: { side: number; along: number; length: number };
  offsetTwice: { side: number; along: number };
  offsetsCross: { side: number; x: number; y: number };
  straightedgeNoLength: { x: number; y: number };
  manyMarks: { found: number; limit: number };
  /** A tie that would hold a mark that hangs loose. */
  looseMark: { mark: string; from: string; to: string; ties: number };
}
