import { jobAtEvent } from "../../../../core/edits/at-event.ts";
import { asDraft, jobText } from "../../../../core/edits/draft.ts";
import type { Json } from "../../../../core/edits/edit.ts";
import { liveOf } from "../../../../core/progress/change.ts";
import { eventsOf, lastPlan, PLAN_KEY, planOf } from "../../../../core/progress/ledger.ts";
import type { EventKind, EventOf, ProgressEvent } from "../../../../core/progress/schema.ts";
import { type ProgressState, stateOf } from "../../../../core/progress/state.ts";
import type { ResumedSaid } from "../../desk/asks.ts";
import type { App } from "../step.ts";

type Told = { [K in EventKind]: Omit<EventOf<K>, "id" | "when" | "by"> }[EventKind];

/** What was really done by the plan that is shown, and what a new event needs. */
export interface SiteLog {
  planHash: string;
  /** All events of this plan as they were entered, and those that still count. */
  entered: readonly ProgressEvent[];
  live: readonly ProgressEvent[];
  state: ProgressState;
  /** What lies by another plan while this one has no events: that plan, and how many pieces. */
  other: { plan: string; laid: number } | null;
}

/** Null while there is no plan that stood the check. */
export function siteLog(app: App): SiteLog | null {
  const { answer } = app;
  if (!answer?.ok || !answer.proved) return null;
  const { planHash } = answer;
  const entered = eventsOf(app.events, planHash);
  const live = liveOf(entered);
  const last = lastPlan(app.events);
  const strange = entered.length === 0 && last !== null && last !== planHash;
  const laid = strange ? stateOf(liveOf(eventsOf(app.events, last))).laid.size : 0;
  return { planHash, entered, live, state: stateOf(live), other: laid > 0 ? { plan: last!, laid } : null };
}

/** Enters what was done, as it stands on this device's clock. */
export function enter(app: App, log: SiteLog, by: string, told: Told): void {
  const event = { ...told, id: crypto.randomUUID(), when: new Date().toISOString(), by };
  app.event({ ...event, [PLAN_KEY]: log.planHash } as unknown as Json);
}

/** Who entered last, for the next event. */
export function lastName(app: App): string {
  const last = app.events[app.events.length - 1] as { by?: unknown } | undefined;
  return typeof last?.by === "string" ? last.by : "";
}

/** Plans what is not laid again, from a plan's events and the job they were entered for. */
export function resumeFrom(app: App, plan: string): Promise<ResumedSaid> {
  const job = jobAtEvent(app.store.records(), (event) => planOf(event) === plan);
  if (job === null) return Promise.reject(new Error("no event of that plan"));
  return app.desk.resume(jobText(asDraft(job)), eventsOf(app.events, plan) as unknown as Json[], app.words.language);
}

/** Takes the job as planned on; what lies is entered under the new plan's names. Undo brings the old job and its events back. */
export function takeResumed(app: App, resumed: ResumedSaid & { ok: true }): void {
  app.store.replace("laying", asDraft(JSON.parse(resumed.text) as Json));
  const known = new Set(eventsOf(app.events, resumed.planHash).map(({ id }) => id));
  for (const event of resumed.events)
    if (!known.has(event.id)) app.event({ ...event, [PLAN_KEY]: resumed.planHash } as unknown as Json);
}
