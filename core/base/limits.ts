/** Limits on everything read: beyond these the input is refused with a sentence, never tried. */
export const LIMITS = {
  /** Largest job or plan text, bytes. */
  textBytes: 64 * 1024 * 1024,
  /** Deepest nesting of a JSON text. */
  jsonDepth: 40,
  /** Most problems listed for one file; the count of the rest is stated. */
  problems: 200,
  /** Longest side of the box round a site, mm (1 km). */
  extentMm: 1_000_000,
  /** Most vertices in one ring, before arcs are flattened. */
  ringVertices: 10_000,
  /** Most cut-outs, no-drill areas and the like, each. */
  areas: 2_000,
  /** Most level readings. */
  levels: 2_000_000,
  /** Most straightedge readings, ties, wall offsets, each. */
  readings: 20_000,
  /** Most boards a plan may need; larger terraces are split by the user. */
  boards: 200_000,
  /** Most clips a plan may need, by the area and the greatest distance between clips alone. */
  clips: 1_000_000,
  /** Longest a site may be that is too thin for any board, mm: all of it must be named, and nobody reads that. */
  thinLengthMm: 2_000_000,
  /** Most different stock lengths of board. */
  boardLengths: 20,
  /** Longest name, title or note, characters. */
  nameLength: 500,
} as const;
