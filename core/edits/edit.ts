import type { JsonPath } from "../read/problem.ts";

/** A JSON value. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
/** What was changed, as a word for the undo button. Add yours here and in every words/<language>/app.ts. */
export type EditName =
  | "outline"
  | "sides"
  | "cutouts"
  | "areas"
  | "levels"
  | "ties"
  | "base"
  | "limits"
  | "preparation"
  | "board"
  | "gaps"
  | "clips"
  | "bond"
  | "cut"
  | "trim"
  | "spares"
  | "prices"
  | "work"
  | "client"
  | "title"
  | "laying"
  | "handover"
  | "import"
  | "open";

/**
 * One place of a job changed. `set`: the value at a path; left out `was` or `now` means that the key is not there.
 * `next` is the key before which a key stands that comes or goes, so that undoing brings back the same bytes.
 * `splice`: some neighbouring entries of the list at a path.
 */
export type Change =
  | { readonly kind: "set"; readonly at: JsonPath; readonly was?: Json; readonly now?: Json; readonly next?: string }
  | {
      readonly kind: "splice";
      readonly at: JsonPath;
      readonly index: number;
      readonly was: readonly Json[];
      readonly now: readonly Json[];
    };
/** A change of a job as a value: plain JSON, kept in the log, undone by its inverse. */
export interface Edit {
  readonly name: EditName;
  readonly changes: readonly Change[];
}

/** The edit that takes this one back. */
export function invert(edit: Edit): Edit {
  return { name: edit.name, changes: [...edit.changes].reverse().map(invertChange) };
}

function invertChange(change: Change): Change {
  if (change.kind === "splice") return { ...change, was: change.now, now: change.was };
  return setChange(change.at, change.now, change.was, change.next);
}

/** A change of one value; what is undefined is left out. */
export function setChange(
  at: JsonPath,
  was: Json | undefined,
  now: Json | undefined,
  next: string | undefined,
): Change & { kind: "set" } {
  return {
    kind: "set",
    at,
    ...(was === undefined ? {} : { was }),
    ...(now === undefined ? {} : { now }),
    ...(next === undefined ? {} : { next }),
  };
}
