import type { LogRecord } from "../../../core/edits/log.ts";

/** A record as the database keeps it: with the place it took in the database's own order. */
export interface Kept {
  seq: number;
  /** Null: torn or from another version. It is left where it is. */
  record: LogRecord | null;
}
export interface ProjectCard {
  id: string;
  title: string;
  /** Order of last use: greater is later. */
  used: number;
}
/**
 * Where logs are kept. Two makes: IndexedDB in the browser (indexed-db.ts), memory in tests (memory.ts).
 * `append` resolves only when the records are durable and were read back; it answers every record of the project after `after`,
 * those just written included, in the database's order.
 */
export interface LogRoom {
  append(project: string, records: readonly LogRecord[], after: number): Promise<Kept[]>;
  read(project: string, after: number): Promise<Kept[]>;
  projects(): Promise<ProjectCard[]>;
  /** Notes a project's title and that it was used now. */
  note(id: string, title: string): Promise<void>;
  /** Takes a whole project from this device, its log with it. */
  forget(id: string): Promise<void>;
  setting(name: string): Promise<unknown>;
  setSetting(name: string, value: unknown): Promise<void>;
  close(): void;
}
