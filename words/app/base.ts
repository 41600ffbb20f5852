import type { Confirmation, Job } from "../../core/job/job.ts";
import type { PreparationWhy } from "../../core/stages/preparation/findings.ts";

/** Fields that take a figure, in every step. */
export interface FieldWords {
  /** What was typed is no figure. */
  noFigure: string;
  /** The least and greatest that can be. */
  between(least: string, most: string): string;
  atLeast(least: string): string;
  /** "5.0 mm": a figure with its unit; `unit` is already in the language. */
  unit: Record<"mm" | "percent" | "litre" | "kg" | "kgM2" | "hours", (figure: string) => string>;
  remove(name: string): string;
}

export type Hidden = "firm" | "membrane" | "heating" | "tendons";

/** The base step. Figures come in as text. */
export interface BaseWords {
  noRecord: string;
  noLevels: string;
  verdict: Record<"accept" | "prepare" | "not-proven" | "stop", string>;
  /** What the drawing shows. */
  shows: string;
  show: Record<"deviation" | "levels", string>;
  with: string;
  layer: Record<"contours" | "falls" | "puddles" | "straightedge", string>;
  /** How the map is read: two sides of the plane, hatched beyond the limit. */
  key(limit: string): string;
  classOver(limit: string): string;
  classUnder(limit: string): string;
  classBetween(from: string, to: string): string;
  judged: string;
  found: string;
  limit: string;
  fails: string;
  gap(length: string): string;
  gapRead: string;
  offPlane(facets: number): string;
  fall: string;
  localFall: string;
  spacing: string;
  spacingHow(limit: string): string;
  puddles(count: number): string;
  deepest(mm: string): string;
  none: string;
  compass: readonly [string, string, string, string, string, string, string, string];
  here: string;
  tapFor: string;
  hereHeight(mm: string): string;
  hereOff(mm: string, above: boolean): string;
  hereOutside: string;
  hereCarried: string;
  hereReading(mm: string): string;
  limits: string;
  limitNames: Record<keyof Job["base"]["limits"], string>;
  declared: string;
  declaredHint: string;
  kind: string;
  kinds: Record<Job["base"]["kind"], string>;
  ask: Record<Hidden, string>;
  answer: Record<"yes" | "no" | "unknown", string>;
  suspended: string;
  loadMax: string;
  confirmations: string;
  confirmHint: string;
  of: string;
  subject: Record<Confirmation["of"], string>;
  by: string;
  on: string;
  says: string;
  confirm: string;
  needsName: string;
  confirmed(subject: string, by: string, on: string, says: string): string;
  drilling: Record<"released" | "stopped", string>;
}

/** The prepare step. */
export interface PrepareWords {
  noRecord: string;
  options: string;
  option: Record<"none" | "patch" | "plane" | "facets", string>;
  /** Why an option can, or cannot, be had. */
  why: Record<PreparationWhy, string>;
  row: Record<"had" | "grind" | "fill" | "mass" | "perM2" | "cost" | "drying", string>;
  had: string;
  notHad: string;
  chosen: string;
  noneChosen: string;
  nothingToDo: string;
  dryingUnknown: string;
  stakes: string;
  stakesCount(grind: string, fill: string, keep: string): string;
  grind(mm: string): string;
  fill(mm: string): string;
  more(count: string): string;
  materials: string;
  material(number: string): string;
  name: string;
  kind: string;
  kinds: Record<"shaped" | "pourable", string>;
  min: string;
  max: string;
  cost: string;
  density: string;
  bag: string;
  loose: string;
  add: string;
  newMaterial: string;
  grindMax: string;
  grindCost: string;
}
