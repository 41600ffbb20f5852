/** Codes of this stage and the data their sentences need. Sentences: words/<language>/setout.ts. Lengths mm, areas mm2. */
export interface SetoutFindings {
  /** Nothing is left to lay once every gap is taken off. */
  fieldEmpty: { areaMm2: number };
  /** A part of a field without a row: nowhere as wide as the narrowest piece, here at most `widthMm`. */
  fieldThin: { lengthMm: number; widthMm: number };
  /** A part of the field too small to be a piece of board. */
  needleLeftOut: { row: number; lengthMm: number; widthMm: number; areaMm2: number };
  /** The thin end of a tapering piece, cut off square. */
  tipBlunted: { row: number; lengthMm: number; widthMm: number; areaMm2: number };
  /** A bridge of board beside a cut-out, too narrow to keep, where no joint can be put. */
  webLeftOut: { row: number; name: string; lengthMm: number; widthMm: number; areaMm2: number };
  /** The field's edge falls between two rows: more is bare there than a gap may be. */
  edgeBare: { row: number; bareMm: number };
  /** The rows run neither along nor across any long side; `sideDeg` is the direction of the one they come nearest to. */
  rowsAskew: { angleDeg: number; sideDeg: number; offDeg: number; side: number };
}
