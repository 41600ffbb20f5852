/**
 * The one table of tolerances. The planner and the checker share this table and the types, nothing else.
 * Source: the rules of a plan (ARCHITECTURE.md, "What holds in every plan").
 */
export const TOLERANCE = {
  /** Rings in a plan file are rounded to this, mm. */
  ringMm: 0.001,
  /** Chord error when an arc is flattened, mm, at most. */
  chordMm: 0.2,
  /** A side or edge gap may exceed its nominal by this, mm. */
  gapOverMm: 2,
  /** A side or edge gap may fall short of its nominal by this, mm. */
  gapUnderMm: 0.25,
  /** An end gap differs from `gaps.end` by at most this, mm. */
  endGapMm: 1.2,
  /** A row within this of the field's edge is not ripped, mm. */
  ripFreeMm: 2,
  /** Below this sine two neighbouring sides count as in line, and the field steps square at their vertex. */
  inLineSine: 0.001,
  /** A mitre at a reflex corner is cut square beyond this many times the larger gap. */
  mitreFactor: 2,
  /** A finding excuses a breach of its own rule within this distance, mm. */
  excuseMm: 400,
  /** Ends of two parts whose directions differ by less across a board, a kerf apart or wider by less, are one saw cut, mm. */
  sameCutMm: 0.05,
  /** Two things this close count as touching when a plan is proved, mm. */
  touchMm: 0.01,
} as const;
