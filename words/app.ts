/**
 * Every word of the browser app. One interface a room: the shell here, each step's in words/app/<step>.ts, added to `AppWords`
 * by its author. A language that lacks a sentence does not compile. Figures come in as text, written by `Figures`.
 */
import type { EditName } from "../core/edits/edit.ts";
import type { StageName } from "../core/plan/make.ts";
import type { Figures } from "./figures.ts";

/** The road: the job's own order. */
export const STEPS = [
  "measure",
  "base",
  "prepare",
  "setout",
  "fix",
  "cut",
  "order",
  "price",
  "days",
  "lay",
  "handover",
] as const;
export type StepId = (typeof STEPS)[number];

export interface AppWords {
  language: string;
  write: Figures;
  /** The app's name and what it is, for the window and the manifest. */
  name: string;
  about: string;
  steps: Record<StepId, StepWords>;
  /** What undo and redo would take back or bring again: "the outline". */
  edits: Record<EditName, string>;
  /** What the planner is at: "Placing the clips". */
  stages: Record<StageName | "read" | "check" | "draw" | "papers", string>;
  shell: ShellWords;
}
export interface StepWords {
  name: string;
  /** One line under the name: what is done here. */
  hint: string;
}
export interface ShellWords {
  road: string;
  drawing: string;
  undo(what: string | null): string;
  redo(what: string | null): string;
  /** State of safe keeping. */
  saving: string;
  saved: string;
  notSaved: string;
  persisted(answer: "granted" | "refused" | "unasked"): string;
  /** Records found that this version cannot read; they are kept. */
  skipped(count: number): string;
  working(stage: string): string;
  stop: string;
  stopped: string;
  planAgain: string;
  /** The planner itself failed: what to do. */
  broken: string;
  findings(count: number): string;
  noFindings: string;
  level: Record<"stop" | "warn" | "note", string>;
  problems(count: number): string;
  unproved: string;
  menu: string;
  close: string;
  jobs: string;
  newJob: string;
  newTitle: string;
  openFile: string;
  saveFile: string;
  jobFile: string;
  papers: string;
  paperMaking: string;
  notOurFile(name: string): string;
  language: string;
  units: string;
  metric: string;
  imperial: string;
  ground: string;
  grounds: Record<"day" | "evening" | "sun", string>;
  offlineReady: string;
  updateWaits: string;
  comesLater: string;
  bigger: string;
  smaller: string;
  whole: string;
}
