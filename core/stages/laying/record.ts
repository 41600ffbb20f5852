import type { Finding } from "../../base/finding.ts";

export interface LayingStep {
  step: number;
  piece: number;
  /** Indices into the fixing's clips: set before this piece is moved in, and after it lies. */
  clipsBefore: number[];
  clipsAfter: number[];
}
export interface LayingRecord {
  steps: LayingStep[];
  /** Rows after which the line is checked against the datum, with the distance that should be read at both ends. */
  checkLines: { row: number; vUm: number }[];
  findings: Finding[];
}
