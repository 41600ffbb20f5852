import type { Finding } from "../../base/finding.ts";
import type { Xy } from "../../job/job.ts";

export type CautionCode =
  | "silica"
  | "compositeDust"
  | "saw"
  | "services"
  | "rcd"
  | "edgeHeight"
  | "load"
  | "slips"
  | "poolSlips"
  | "hotSurface"
  | "lifting"
  | "wetCement"
  | "vibration"
  | "peopleBelow"
  | "asbestos"
  | "film";
/** What the new floor does to the house: heights at doors and guards, water, and the cautions that apply. */
export interface SiteRecord {
  doors: { side: number; at: Xy; sillMm: number | null; stepAfterMm: number | null; leafClearMm: number | null }[];
  riseMm: number;
  /** Drilling positions may be printed. */
  drillingReleased: boolean;
  cautions: CautionCode[];
  findings: Finding[];
}
