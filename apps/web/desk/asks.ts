/** What the page and the planner's worker say to each other. Every answer carries the number of its ask. */
import type { FindingLevel, Release } from "../../../core/base/finding.ts";
import type { StageName } from "../../../core/plan/make.ts";
import type { PlanRecord } from "../../../core/plan/record.ts";
import type { OutFile } from "../../../desk/outcome.ts";
import type { Item } from "../../../papers/sheet.ts";

/** Which drawing: the layer a step shows. */
export type DrawingName = "survey" | "base" | "setout" | "fixing";
export interface DrawAsk {
  name: DrawingName;
  /** 1 : scale of a paper millimetre; texts and bands are sized for it. */
  scale: number;
  turnDeg: number;
}
export interface Drawing extends DrawAsk {
  items: readonly Item[];
}
export interface SaidFinding {
  /** Ties place, list and paper together; findings of one kind share one. */
  number: number;
  code: string;
  rule: string;
  level: FindingLevel;
  at: readonly [number, number] | null;
  releasedBy: Release;
  says: string;
  do: string;
}
export interface SaidProblem {
  code: string;
  /** Path into the job: site.outline[3]. */
  place: string;
  says: string;
  do: string;
}
/** A plan of the job, or what stands in the way of one. */
export type Answer =
  | {
      ok: true;
      record: PlanRecord;
      /** SHA-256 of the plan file's canonical form, for the progress file. */
      planHash: string;
      /** The checker's line. */
      summary: string;
      /** False: the plan did not stand the check; `breaches` say why. */
      proved: boolean;
      breaches: string[];
      findings: SaidFinding[];
      drawing: Drawing | null;
    }
  | { ok: false; problems: SaidProblem[] };

export type Ask =
  | { kind: "plan"; text: string; file: string; language: string; draw: DrawAsk | null }
  | { kind: "draw"; draw: DrawAsk }
  /** Papers by file name. */
  | { kind: "papers"; names: readonly string[]; fonts: { regular: string[]; bold: string[] } }
  /** What stands in the way of a file being used as a job; none where it can be. */
  | { kind: "read"; text: string; file: string; language: string };
export type StageSaid = StageName | "read" | "check" | "draw" | "papers";
export type Reply =
  | { kind: "stage"; stage: StageSaid }
  | { kind: "answer"; answer: Answer }
  | { kind: "drawing"; drawing: Drawing }
  | { kind: "files"; files: OutFile[] }
  | { kind: "problems"; problems: SaidProblem[] }
  /** The planner itself failed on this job. */
  | { kind: "broken"; detail: string };
