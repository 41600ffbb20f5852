/**
 * Every word of the browser app. One interface a room: the shell here, each step's in words/app/<step>.ts, added to `AppWords`
 * by its author. A language that lacks a sentence does not compile. Figures come in as text, written by `Figures`.
 */
import type { EditName } from "../core/edits/edit.ts";
import type { StageName } from "../core/plan/make.ts";
import type { BaseWords, FieldWords, PrepareWords } from "./app/base.ts";
import type { BoardWords } from "./app/board.ts";
import type { BringWords } from "./app/bring.ts";
import type { CutWords } from "./app/cut.ts";
import type { FixWords } from "./app/fix.ts";
import type { HandoverWords, LayWords } from "./app/lay.ts";
import type { MeasureWords, PadWords } from "./app/measure.ts";
import type { DaysWords, OrderWords, PriceWords } from "./app/order.ts";
import type { SetoutWords } from "./app/setout.ts";
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
  board: BoardWords;
  setout: SetoutWords;
  fix: FixWords;
  cut: CutWords;
  measure: MeasureWords;
  pad: PadWords;
  bring: BringWords;
  field: FieldWords;
  base: BaseWords;
  prepare: PrepareWords;
  order: OrderWords;
  price: PriceWords;
  days: DaysWords;
  lay: LayWords;
  handover: HandoverWords;
}
export interface StepWords {
  name: string;
  /** One line under the name: what is done here. */
  hint: string;
}
/** The papers by file name; PDF, and what other programs read. */
export const PAPERS = [
  "summary.pdf",
  "findings.pdf",
  "base.pdf",
  "staking.pdf",
  "setout.pdf",
  "fixing.pdf",
  "cutlist.pdf",
  "cards.pdf",
  "order.pdf",
  "setout.dxf",
  "order.xlsx",
  "plan.json",
] as const;
export type PaperName = (typeof PAPERS)[number];

export interface ShellWords {
  road: string;
  drawing: string;
  /** Short, on the key; and what it would take back, for its label. */
  undoShort: string;
  redoShort: string;
  undo(what: string | null): string;
  redo(what: string | null): string;
  /** State of safe keeping. */
  saving: string;
  saved: string;
  notSaved: string;
  /** This window keeps nothing: private browsing, or storage switched off. */
  notLasting: string;
  /** A step's panel came to a halt. */
  panelFault: string;
  remove: string;
  removeAgain: string;
  removeJob(title: string): string;
  removeSure(title: string): string;
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
  /** Files that cannot be opened: what to do. */
  notOurFile(name: string): string;
  newerFile(name: string, format: string): string;
  fileProblems(name: string, count: number): string;
  tooLarge(name: string, megabytes: string): string;
  openedAnew(name: string): string;
  paperNames: Record<PaperName, string>;
  papersWait: string;
  papersFailed: string;
  dropHere: string;
  title: string;
  safeKeeping: string;
  settings: string;
  files: string;
  today: string;
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
