import type { FindingLevel } from "../core/base/finding.ts";
import type { Job } from "../core/job/job.ts";
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
  base(surface: SurfaceRecord, preparation: PreparationRecord, job: Job, write: Figures): string[];
}
