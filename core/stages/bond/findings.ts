/** Codes of this stage and the data their sentences need. Sentences: words/<language>/bond.ts. Lengths mm, areas mm2. */
export interface BondFindings {
  /** A joint that had to leave the bond's lattice, and by how much. */
  jointMoved: { row: number; movedMm: number; why: "minPiece" | "post" | "clear" | "stagger" | "locked"; name: string };
  /** A joint that was to stay where it lies and no longer can. `atMm` is its u. */
  lockedDropped: { row: number; atMm: number; why: "outside" | "oneBoard" | "tooShort" };
  /** A place where the bond would have a joint and the row has none. */
  jointLeftOut: { row: number };
  /** A joint in a row that one board could have spanned, because of what stands in it. */
  jointAtPost: { row: number; name: string };
  /** A joint nearer to one of the row below than the stagger. */
  staggerShort: { row: number; distanceMm: number; limitMm: number };
  /** A piece with a joint that is shorter than it should be. */
  pieceShort: { row: number; lengthMm: number; limitMm: number };
  /** A piece narrower than a rip may be. */
  pieceNarrow: { row: number; widthMm: number; limitMm: number };
  /** A scrap that a joint leaves, too small to be a piece. */
  scrapLeftOut: { row: number; lengthMm: number; widthMm: number; areaMm2: number };
  /** Free joints: a piece with a joint that is too short. */
  freeShortPiece: { row: number; lengthMm: number; leastMm: number };
  /** Free joints: two joints of neighbouring rows too near each other. */
  freeStagger: { row: number; foundMm: number; leastMm: number };
  /** Free joints: a joint where none should lie. `atMm` is its u. */
  freeBarred: { row: number; atMm: number };
  /** Free joints: a place that must have a joint has none. */
  freeMissing: { row: number; name: string; why: "web" | "enclosed" };
}
