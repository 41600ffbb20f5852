import { roundMm } from "../base/units.ts";
import type { Kept } from "./kept.ts";

/** How the rows still to be laid take up what the measured line is off by. Ends: at least u, at greatest u. Lengths mm. */
export interface Drift {
  row: number;
  /** How far the row's upper edge lies beyond its planned place. */
  off: [number, number];
  /** Gaps still to be set above it. */
  gaps: number;
  /** The gap to set in each of them, and by how much it differs from the planned one. */
  gap: [number, number];
  each: [number, number];
  /** What is left at the last row, because no gap may go beyond its range; beyond its planned place. */
  left: [number, number];
  /** The two ends differ by more than the gaps can hide in one drawing: the rows run askew. */
  skew: number;
}

/** Two ends this near each other are parallel for one who lays boards, mm (common practice, no source). */
export const ASKEW_MM = 1;

/**
 * Null where no line was measured. The drawing keeps its even rows (a plan has one gap for all); the spacers take up the
 * drift, evenly over all gaps still to be set, at each end by itself, as far as `range` allows.
 */
export function driftOver(
  measured: Kept["drift"],
  lastRow: number,
  gap: number,
  range: readonly [number, number],
): Drift | null {
  if (measured === null) return null;
  const gaps = Math.max(0, lastRow - measured.row);
  const end = (off: number): { each: number; left: number } => {
    if (gaps === 0) return { each: 0, left: off };
    const each = Math.min(Math.max(-off / gaps, Math.min(0, range[0] - gap)), Math.max(0, range[1] - gap));
    return { each: roundMm(each), left: roundMm(off + each * gaps) };
  };
  const [a, b] = [end(measured.start), end(measured.end)];
  return {
    row: measured.row,
    off: [measured.start, measured.end],
    gaps,
    gap: [roundMm(gap + a.each), roundMm(gap + b.each)],
    each: [a.each, b.each],
    left: [a.left, b.left],
    skew: roundMm(measured.end - measured.start),
  };
}
