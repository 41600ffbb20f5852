/** Codes of this stage and the data their sentences need. Sentences: words/<language>/survey.ts. Lengths mm. */
import type { FindingsOf } from "../../base/finding.ts";

export interface SurveyFindings {
  /** The test names this reading as misread; the outline was adjusted again without it. */
  tape: { from: string; to: string; measured: number; should: number; off: number; w: number; limit: number };
  /** One of several is misread, no test tells which; this one's slip would be a whole number of decimetres. */
  tapeLikely: { from: string; to: string; measured: number; should: number; off: number; suspects: string[] };
  /** The tapes contradict each other, and nothing tells which is wrong. */
  tapeContradict: { suspects: string[]; offs: number[]; off: number; from: string; to: string };
  /** Nothing checks these readings. */
  tapeUncontrolled: { ties: string[]; count: number; from: string; to: string };
  tapeWeak: { mark: string; sigma: number; limit: number };
  /** Two shapes fit the tapes; a tie that would decide. */
  tapeMirror: { mark: string; from: string; to: string; here: number; other: number };
  tapeClockwise: { readings: number };
  tiesUnused: { ties: number };
  /** `others`, of each kind: how many more there are than are named one by one. */
  levelTwice: { x: number; y: number; readings: number; least: number; most: number; used: number; others: number };
  levelFar: { x: number; y: number; z: number; off: number; limit: number; others: number };
  levelDecimal: { x: number; y: number; z: number; likely: number; off: number; others: number };
  levelAway: { x: number; y: number; distance: number; others: number };
  levelsOutside: { count: number; farthest: number };
  straightedgeOutside: { count: number };
  areaOutside: { what: "noDrill" | "keepClear" | "loose"; name: string };
  slabShort: { x: number; y: number; corners: number };
}
export type SurveyFinding = FindingsOf<SurveyFindings>;
