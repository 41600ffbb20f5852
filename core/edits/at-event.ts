import type { Json } from "./edit.ts";
import { EMPTY, foldRecord, type LogRecord } from "./log.ts";

/** The job as it stood when the last event that `wanted` picks was entered; null where there was none. O(records). */
export function jobAtEvent(records: readonly LogRecord[], wanted: (event: Json) => boolean): Json | null {
  let state = EMPTY;
  let job: Json | null = null;
  for (const record of records) {
    state = foldRecord(state, record);
    if (record.kind === "event" && wanted(record.event)) job = state.job;
  }
  return job;
}
