import { isLogRecord, type LogRecord } from "../../../core/edits/log.ts";
import type { Kept, LogRoom, ProjectCard } from "./log-room.ts";

/** A log room in memory: records as text, as a database would keep them. `rows` may be shared to play a reload or a second tab. */
export function memoryRoom(rows: { seq: number; project: string; text: string }[] = []): LogRoom {
  const cards = new Map<string, ProjectCard>();
  const settings = new Map<string, unknown>();
  let clock = 0;
  const read = (project: string, after: number): Kept[] =>
    rows
      .filter((row) => row.project === project && row.seq > after)
      .map(({ seq, text }) => ({ seq, record: parse(text) }));
  return {
    append: async (project, records, after) => {
      for (const record of records)
        rows.push({ seq: (rows.at(-1)?.seq ?? 0) + 1, project, text: JSON.stringify(record) });
      return read(project, after);
    },
    read: async (project, after) => read(project, after),
    projects: async () => [...cards.values()].sort((a, b) => b.used - a.used),
    note: async (id, title) => void cards.set(id, { id, title, used: ++clock }),
    forget: async (id) => {
      cards.delete(id);
      rows.splice(0, rows.length, ...rows.filter((row) => row.project !== id));
    },
    setting: async (name) => settings.get(name),
    setSetting: async (name, value) => void settings.set(name, value),
    close: () => {},
  };
}

function parse(text: string): LogRecord | null {
  try {
    const value: unknown = JSON.parse(text);
    return isLogRecord(value) ? value : null;
  } catch {
    return null;
  }
}
