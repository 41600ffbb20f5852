import type { ProgressEvent } from "./schema.ts";

/** The key by which an event in a log of several plans names the plan it belongs to: the hash of the plan file. */
export const PLAN_KEY = "x-plan";
/** An event as a log keeps it: when a job is planned anew, what lies is entered again under the new plan's names. */
export type Entered = ProgressEvent & { [PLAN_KEY]: string };

/** The events of one plan in the order they were entered, each once. What is not an event of ours is passed over. O(events). */
export function eventsOf(log: readonly unknown[], planHash: string): ProgressEvent[] {
  const seen = new Set<string>();
  const out: ProgressEvent[] = [];
  for (const one of log) {
    if (planOf(one) !== planHash) continue;
    const event = one as Entered;
    if (seen.has(event.id)) continue;
    seen.add(event.id);
    out.push(event);
  }
  return out;
}

/** The plan of the event entered last; null where there is none. */
export function lastPlan(log: readonly unknown[]): string | null {
  for (let i = log.length - 1; i >= 0; i--) {
    const plan = planOf(log[i]);
    if (plan !== null) return plan;
  }
  return null;
}

/** The plan that an entry of the log belongs to; null where it is none of ours. */
export function planOf(entry: unknown): string | null {
  if (typeof entry !== "object" || entry === null) return null;
  const { id, kind, [PLAN_KEY]: plan } = entry as Record<string, unknown>;
  return typeof id === "string" && typeof kind === "string" && typeof plan === "string" ? plan : null;
}
