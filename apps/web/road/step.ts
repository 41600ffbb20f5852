import type { ComponentType, JSX } from "preact";
import type { JobDraft } from "../../../core/edits/draft.ts";
import type { EditName, Json } from "../../../core/edits/edit.ts";
import type { PlanRecord } from "../../../core/plan/record.ts";
import type { Item, Layer, Pt } from "../../../papers/sheet.ts";
import type { AppWords, StepId } from "../../../words/app.ts";
import type { Bounds } from "../board/camera.ts";
import type { Hit } from "../board/hit.ts";
import type { Answer, DrawingName } from "../desk/asks.ts";
import type { Desk } from "../desk/client.ts";
import type { Trials } from "../desk/trials.ts";
import type { Store } from "../store/store.ts";
import type { Grips } from "./measure/grips.tsx";

/** What every panel gets. A new object with every change; its functions stay the same. */
export interface App {
  /** The job as written, before defaults. Change it through `edit` only. */
  job: JobDraft;
  /** Progress events of the lay step, oldest first. */
  events: readonly Json[];
  /** The last answer of the planner: a plan, or problems. Null until the first. */
  answer: Answer | null;
  /** The last plan there was, also while the job has problems. Null until the first. */
  record: PlanRecord | null;
  /** True while `answer` is of an older state of the job. */
  stale: boolean;
  words: AppWords;
  units: Units;
  step: StepId;
  /** Where the drawing was last tapped, site mm, and how near counts as hit. Null: nowhere, or taken back. */
  tapped: Tap | null;
  /** Changes a copy of the job; what differs becomes one record in the log and can be undone. */
  edit(name: EditName, change: (job: JobDraft) => void): void;
  undo(): void;
  redo(): void;
  event(event: Json): void;
  go(step: StepId): void;
  /** Draws items over the step's layer until the step is left or others are given; null takes them away. */
  overlay(items: readonly Item[] | null): void;
  /** Another layer than the step's own, or some of its layers left away, until the step is left; null: as usual. */
  view(ask: ViewAsk | null): void;
  /** Points that can be dragged, until the step is left or null is given. */
  grips(grips: Grips | null): void;
  /** Picks a thing on the drawing as if it had been tapped. */
  pick(at: Pt, hit: Hit): void;
  /** Shows a trial instead of the plan while something is being moved; null: the plan again. */
  preview(record: PlanRecord | null): void;
  /** Shows a place on the drawing, without moving more than needed. */
  show(at: Pt): void;
  untap(): void;
  /** Hands files to the fitter (download or share sheet). */
  give(files: readonly { name: string; bytes: Uint8Array | string }[]): void;
  store: Store;
  desk: Desk;
  trials: Trials;
}
export type Units = "metric" | "imperial";
export interface ViewAsk {
  draws?: DrawingName;
  hide?: readonly Layer[];
  /** What "whole" shows, where it is not the plan's outline. */
  bounds?: Bounds;
}
export interface Tap {
  at: Pt;
  withinMm: number;
  /** What the board drew there: a finding, board, clip, side ... */
  hit: Hit | null;
}
export type StepPanel = (props: { app: App }) => JSX.Element;

export interface Step {
  id: StepId;
  /** The layer of the plan that is drawn while this step is open. */
  draws: DrawingName;
  /** Loaded when first opened, to keep the first drawing fast. */
  panel: () => Promise<{ default: StepPanel | ComponentType<{ app: App }> }>;
}
