import type { ProgressEvent } from "./schema.ts";

/** What counts now, in the order it was entered; undone events are not in it. Plain data. */
export type Live = readonly ProgressEvent[];
/** A change is a value: it can be applied, turned round, stored and read again. */
export type Change =
  | { kind: "add"; at: number; event: ProgressEvent }
  | { kind: "remove"; at: number; event: ProgressEvent };

/** What an event does to what counts: it adds itself, or takes away what it undoes. Null where there is nothing to undo. */
export function changeOf(live: Live, event: ProgressEvent): Change | null {
  if (event.kind !== "undo") return { kind: "add", at: live.length, event };
  const at = live.findIndex((one) => one.id === event.event);
  return at < 0 ? null : { kind: "remove", at, event: live[at]! };
}

/** Throws where the change does not fit: a removal of something else than what stands there. */
export function apply(live: Live, change: Change): Live {
  if (change.kind === "add") return [...live.slice(0, change.at), change.event, ...live.slice(change.at)];
  if (live[change.at]?.id !== change.event.id)
    throw new Error(`event ${change.event.id} does not stand at ${change.at}`);
  return [...live.slice(0, change.at), ...live.slice(change.at + 1)];
}

/** The change that takes this one back. */
export function invert(change: Change): Change {
  return { ...change, kind: change.kind === "add" ? "remove" : "add" };
}

/** Everything that counts after these events, entered in this order. O(events + undos x events). */
export function liveOf(events: readonly ProgressEvent[]): Live {
  // one list built up in place: the same as applying each change, without copying it each time
  const live: ProgressEvent[] = [];
  for (const event of events) {
    const change = changeOf(live, event);
    if (change?.kind === "add") live.push(change.event);
    else if (change) live.splice(change.at, 1);
  }
  return live;
}
