import type { Finding } from "../../base/finding.ts";
import type { Xy } from "../../job/job.ts";
import type { Plane } from "../surface/record.ts";

export interface PreparationOption {
  option: "none" | "patch" | "plane" | "facets";
  grindMm3: number;
  fillMm3: number;
  massKg: number;
  /** Greatest added mass over any square metre, kg/m2. */
  massPerM2Kg: number;
  costMinor: number;
  planes: Plane[];
  /** Why it is, or is not, to be had: a code for words/. */
  why: string;
  feasible: boolean;
  materials: { name: string; litres: number; bags: number | null; costMinor: number }[];
  /** What to do at each reading: negative grinds, positive fills, mm. */
  stakes: { at: Xy; nowMm: number; thenMm: number; changeMm: number }[];
}
export interface PreparationRecord {
  options: PreparationOption[];
  /** Index of the cheapest option that can be had, or null. */
  chosen: number | null;
  findings: Finding[];
}
