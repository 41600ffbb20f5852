/** The short labels of drawings: what a language must give. Whole sentences of findings are in words.ts. */

import type { SideKind } from "../core/job/job.ts";
import type { ClipKind } from "../core/stages/fixing/record.ts";

export type DrawingKind = "base" | "setout" | "fixing";
export interface DrawingLabels {
  /** Kind of drawing in the title block, and the letter behind its number. */
  type: Record<DrawingKind, string>;
  letter: Record<DrawingKind, string>;
  block: {
    owner: string;
    title: string;
    type: string;
    number: string;
    sheet: string;
    scale: string;
    date: string;
    created: string;
    approved: string;
    revision: string;
    units: string;
  };
  bar: string;
  seen: string;
  datum: string;
  axes: { x: string; y: string; rows: string };
  legend: string;
  states: { head: string; measured: string; assumed: string; checked: string };
  measured: {
    outlineGiven(corners: string): string;
    outlineTaped(ties: string, s0: string | null): string;
    levels(count: string, spacing: string | null): string;
    noLevels: string;
    straightedges(count: string): string;
  };
  assumed: {
    defaults(count: string): string;
    none: string;
    unknown(names: string[]): string;
    membrane: string;
    heating: string;
    tendons: string;
    firm: string;
  };
  checked: { proved(summary: string): string; notProved: string; signed: string };
  findings: {
    head: string;
    none: string;
    more(count: string): string /** Of the same kind. */;
    alike(count: string): string;
    /** Beside the head, where a text is cut off at "…": where it stands in full. */
    shortened: string;
  };
  banner: { notForDrilling: string; why: string };
  view: {
    levels: string;
    deviation: string /** Where a drawing goes on. */;
    match(sheet: string): string;
    key: string;
  };
  side: Record<SideKind, string>;
  sill(mm: string): string;
  noLevels: string;
  diagonal: string;
  base: {
    level: string;
    contour(step: string): string;
    fall(percent: string): string;
    puddle: string;
    puddleDepth(mm: string): string;
    straightedge: string;
    straightedgeGap(gap: string, length: string): string;
    fill(mm: string): string;
    grind(mm: string): string;
    deviationFigure: string;
    /** Between the two ends of a class: "-10 to -5". */
    to: string;
    overLimit(mm: string): string;
    underLimit(mm: string): string;
    plane(fall: string, towards: string): string;
    zone(halfWidth: string, limit: string): string;
    verdict: Record<"accept" | "prepare" | "not-proven" | "stop", string>;
    compass: readonly [string, string, string, string, string, string, string, string];
  };
  setout: {
    wall: string;
    kerb: string;
    field: string;
    board: string;
    cutEnd: string;
    rippedEdge: string;
    startLine: string;
    rowFigure: string;
    square: string;
    rows(count: string, gap: string): string;
    boards(boards: string, pieces: string): string;
    area(m2: string): string;
  };
  fixing: {
    clip: Record<ClipKind, string>;
    screw: string;
    noDrill: string;
    slab: string;
    baseJoint: string;
    count: Record<ClipKind | "screw", (count: string) => string>;
    leftOff: string;
  };
}
