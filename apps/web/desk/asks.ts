/** What the page and the planner's worker say to each other. Every answer carries the number of its ask. */
import type { FindingLevel, Release } from "../../../core/base/finding.ts";
import type { Json } from "../../../core/edits/edit.ts";
import type { StageName } from "../../../core/plan/make.ts";
import type { PlanRecord } from "../../../core/plan/record.ts";
import type { ProgressEvent } from "../../../core/progress/schema.ts";
import type { OutFile } from "../../../desk/outcome.ts";
import type { Item } from "../../../papers/sheet.ts";

/** Which drawing: the layer a step shows. */
export type DrawingName = "survey" | "base" | "deviation" | "stakes" | "setout" | "fixing";
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
/** What the checker says of a plan. It comes a moment after the plan itself. */
export interface Proof {
  /** False: not held against the checker yet; the rest says nothing. */
  checked: boolean;
  /** False once checked: the plan did not stand the check; `breaches` say why. */
  proved: boolean;
  /** The checker's line. */
  summary: string;
  breaches: string[];
  /** SHA-256 of the plan file's canonical form, for the progress file. */
  planHash: string;
}
/** A plan of the job, or what stands in the way of one. */
export type Answer =
  | (Proof & {
      ok: true;
      record: PlanRecord;
      findings: SaidFinding[];
      /** Why the rows and joints lie as they do, in sentences. */
      reasons: string[];
      drawing: Drawing | null;
    })
  | { ok: false; problems: SaidProblem[] };

/** A job that is begun, planned on; or why that cannot be. Nothing is changed by it: the page takes the job or leaves it. */
export type ResumedSaid =
  | {
      ok: true;
      /** The job as it now stands, and the paths in which it differs. */
      text: string;
      changed: readonly string[];
      /** The plan of that job, and what is laid under its names. */
      planHash: string;
      events: readonly ProgressEvent[];
      /** False: the new plan did not stand the check and must not be taken. */
      proved: boolean;
      /** A piece that lies is drawn otherwise. */
      stop: boolean;
      /** What there is to say: what lies, what is still needed, drift. */
      lines: readonly string[];
    }
  | { ok: false; lines: readonly string[] };

export type Ask =
  | { kind: "plan"; text: string; file: string; language: string; draw: DrawAsk | null }
  | { kind: "draw"; draw: DrawAsk }
  /** Papers by file name. */
  | { kind: "papers"; names: readonly string[]; fonts: { regular: string[]; bold: string[] } }
  /** What is laid, kept as it lies, and the rest planned again: a job's text and the progress events of its plan. */
  | { kind: "resume"; text: string; events: readonly Json[]; language: string }
  /** What stands in the way of a file being used as a job; none where it can be. */
  | { kind: "read"; text: string; file: string; language: string };
export type StageSaid = StageName | "read" | "check" | "draw" | "papers";
export type Reply =
  | { kind: "stage"; stage: StageSaid }
  | { kind: "answer"; answer: Answer }
  /** Null: left out, as a newer job waits. */
  | { kind: "proof"; proof: Proof | null }
  | { kind: "drawing"; drawing: Drawing }
  | { kind: "files"; files: OutFile[] }
  | { kind: "resumed"; resumed: ResumedSaid }
  | { kind: "problems"; problems: SaidProblem[] }
  /** The planner itself failed on this job. */
  | { kind: "broken"; detail: string };
