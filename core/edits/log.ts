import { applyEdit } from "./apply.ts";
import type { Edit, EditName, Json } from "./edit.ts";

/**
 * One record of a project's log. Records are only ever added; what a project is, is the fold of its records in the order
 * the database took them. `undo` and `redo` name the edit they mean, so that two hands at once cannot undo each other's.
 */
export type LogRecord =
  | { readonly id: string; readonly project: string; readonly kind: "start"; readonly job: Json }
  | { readonly id: string; readonly project: string; readonly kind: "edit"; readonly edit: Edit }
  | { readonly id: string; readonly project: string; readonly kind: "undo" | "redo"; readonly of: string }
  | { readonly id: string; readonly project: string; readonly kind: "event"; readonly event: Json };

interface Step {
  readonly id: string;
  readonly edit: Edit;
  /** Takes the edit back, from what really stood there. */
  readonly inverse: Edit;
}
export interface Folded {
  readonly job: Json | null;
  readonly done: Trail<Step>;
  readonly undone: Trail<Step>;
  /** What was really laid and measured on site, in order: events of the progress file. */
  readonly events: Trail<Json>;
  /** Records that had no effect: made where another hand had already changed the place. */
  readonly idle: number;
}
/** A stack that shares its tail: undo without end costs nothing to remember. */
export type Trail<T> = { readonly top: T; readonly rest: Trail<T>; readonly count: number } | null;

export const EMPTY: Folded = { job: null, done: null, undone: null, events: null, idle: 0 };

/** One record more. A record that does not fit changes nothing and is counted. */
export function foldRecord(state: Folded, record: LogRecord): Folded {
  if (record.kind === "start") return state.job === null ? { ...state, job: record.job } : idle(state);
  if (state.job === null) return idle(state);
  if (record.kind === "event") return { ...state, events: push(state.events, record.event) };
  if (record.kind === "edit") {
    const applied = applyEdit(state.job, record.edit);
    if (!applied) return idle(state);
    const step = { id: record.id, edit: record.edit, inverse: applied.inverse };
    return { ...state, job: applied.value, done: push(state.done, step), undone: null };
  }
  return record.kind === "undo" ? undone(state, record.of) : redone(state, record.of);
}

function undone(state: Folded, of: string): Folded {
  const step = state.done?.top;
  const applied = step?.id === of ? applyEdit(state.job!, step.inverse) : null;
  if (!step || !applied) return idle(state);
  return { ...state, job: applied.value, done: state.done!.rest, undone: push(state.undone, step) };
}

function redone(state: Folded, of: string): Folded {
  const step = state.undone?.top;
  const applied = step?.id === of ? applyEdit(state.job!, step.edit) : null;
  if (!step || !applied) return idle(state);
  return {
    ...state,
    job: applied.value,
    done: push(state.done, { ...step, inverse: applied.inverse }),
    undone: state.undone!.rest,
  };
}

function idle(state: Folded): Folded {
  return { ...state, idle: state.idle + 1 };
}

export function push<T>(trail: Trail<T>, top: T): Trail<T> {
  return { top, rest: trail, count: (trail?.count ?? 0) + 1 };
}

/** A trail as a list, oldest first. */
export function listOf<T>(trail: Trail<T>): T[] {
  const out: T[] = [];
  for (let at = trail; at; at = at.rest) out.push(at.top);
  return out.reverse();
}

/** The edit that undo would take back, and the one redo would bring again. */
export function nextUndo(state: Folded): { id: string; name: EditName } | null {
  return state.done && { id: state.done.top.id, name: state.done.top.edit.name };
}
export function nextRedo(state: Folded): { id: string; name: EditName } | null {
  return state.undone && { id: state.undone.top.id, name: state.undone.top.edit.name };
}

/** True for a record of this log; anything else found in the database is left alone and not read. */
export function isLogRecord(value: unknown): value is LogRecord {
  if (typeof value !== "object" || value === null) return false;
  const one = value as Record<string, unknown>;
  if (typeof one.id !== "string" || typeof one.project !== "string") return false;
  if (one.kind === "start") return isObject(one.job);
  if (one.kind === "event") return isObject(one.event);
  if (one.kind === "undo" || one.kind === "redo") return typeof one.of === "string";
  return one.kind === "edit" && isEdit(one.edit);
}

function isEdit(value: unknown): boolean {
  if (!isObject(value) || typeof value.name !== "string" || !Array.isArray(value.changes)) return false;
  return value.changes.every(
    (change: unknown) =>
      isObject(change) &&
      Array.isArray(change.at) &&
      change.at.every((step: unknown) => typeof step === "string" || typeof step === "number") &&
      (change.kind === "set" ||
        (change.kind === "splice" &&
          typeof change.index === "number" &&
          Array.isArray(change.was) &&
          Array.isArray(change.now))),
  );
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
