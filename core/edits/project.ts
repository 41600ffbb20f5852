import { isGroup, sameJson } from "./apply.ts";
import type { Json } from "./edit.ts";
import { EMPTY, foldRecord, isLogRecord, type LogRecord, listOf } from "./log.ts";

export const PROJECT_FORMAT = "rowline/project@1";

/** A project as one file: the job as it stands, the log it came from (so that undo goes on), what was done on site. */
export interface ProjectFile {
  format: typeof PROJECT_FORMAT;
  job: Json;
  log: LogRecord[];
  progress: Json[];
}
/** What a file turned out to be. `kept` false: the log did not lead to the job, so it starts anew from the job. */
export type Found =
  | { kind: "project"; title: string; records: LogRecord[]; kept: boolean }
  | { kind: "job"; title: string; job: Json }
  | { kind: "newer"; format: string }
  | { kind: "other" };

/** The project file's text: same project, same bytes. */
export function projectText(job: Json, log: readonly LogRecord[]): string {
  const { events } = log.reduce(foldRecord, EMPTY);
  const file: ProjectFile = { format: PROJECT_FORMAT, job, log: [...log], progress: listOf(events) };
  return `${JSON.stringify(file)}\n`;
}

/** What a JSON value is of ours. A project gets `id` as its new name and keeps its records; nothing is trusted unread. */
export function findIn(value: unknown, id: string): Found {
  if (!isGroup(value as Json)) return { kind: "other" };
  const file = value as Record<string, Json>;
  const format = typeof file.format === "string" ? file.format : "";
  const [name, version] = format.split("@") as [string, string | undefined];
  if (name === "rowline/job" && isJob(file)) return { kind: "job", title: titleOf(file), job: file };
  if (name !== "rowline/project") return { kind: "other" };
  if (Number(version) > 1) return { kind: "newer", format };
  const { job } = file;
  if (!job || !isJob(job)) return { kind: "other" };
  const log = (Array.isArray(file.log) ? file.log : []).filter(isLogRecord);
  const records = log.map((record) => ({ ...record, project: id }));
  const folded = records.reduce(foldRecord, EMPTY);
  if (folded.job !== null && sameJson(folded.job, job))
    return { kind: "project", title: titleOf(job), records, kept: true };
  const events = Array.isArray(file.progress) ? file.progress.filter(isGroup) : [];
  return { kind: "project", title: titleOf(job), records: anew(id, job, events), kept: false };
}

/** A log that starts from a job and what was done. */
export function anew(id: string, job: Json, events: readonly Json[]): LogRecord[] {
  return [
    { id: `${id}-0`, project: id, kind: "start", job },
    ...events.map((event, i): LogRecord => ({ id: `${id}-${i + 1}`, project: id, kind: "event", event })),
  ];
}

function isJob(value: Json): boolean {
  return isGroup(value) && value.site !== undefined && isGroup(value.site) && typeof value.title === "string";
}

function titleOf(job: Json): string {
  return String((job as { title?: unknown }).title ?? "");
}
