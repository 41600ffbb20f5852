import type { FindingLevel } from "../core/base/finding.ts";
import type { Job } from "../core/job/job.ts";
import type { Drift } from "../core/progress/drift.ts";
import type { Needed } from "../core/progress/needed.ts";
import type { PreparationRecord } from "../core/stages/preparation/record.ts";
import type { SurfaceRecord } from "../core/stages/surface/record.ts";
import type { Figures } from "./figures.ts";

/** What the command line and other front doors say beyond findings and papers. */
export interface DeskWords {
  unproved: string;
  papersLie: string;
  proved: string;
  notProved(breaches: number): string;
  noBase: string;
  level: Record<FindingLevel, string>;
  noSchema(name: string): string;
  resume: ResumeWords;
  base(surface: SurfaceRecord, preparation: PreparationRecord, job: Job, write: Figures): string[];
}

/** What is said when a job that is begun is planned on. Rows and ids as in the plan; lengths mm. */
export interface ResumeWords {
  heading: string;
  laid(laid: number, pieces: number, rowsDone: number, rowsBegun: readonly number[]): string;
  asLaid(pieces: number): string;
  needed(needed: Needed, write: Figures): string[];
  spoilt(pieces: readonly string[], boards: readonly string[]): string;
  drift(drift: Drift, range: readonly [number, number], write: Figures): string[];
  /** Pieces that lie and that the new plan draws otherwise; `offMm` null where nothing is planned there now. */
  otherwise(pieces: readonly { before: string; row: number; offMm: number | null }[], write: Figures): string;
  holes(count: number): string;
  outlineBroken: string;
  rowsMoved: string;
}
