import type { JsonPath } from "../read/problem.ts";
import { type Change, type Edit, type Json, setChange } from "./edit.ts";

/** What an edit did to a value: the new value, and the edit that really takes it back. */
export interface Applied {
  readonly value: Json;
  readonly inverse: Edit;
}

/**
 * Applies an edit to a value; the old value stays as it is and shares what did not change.
 * Another hand may have changed the same place since the edit was made: a value set then goes before the older one, and the
 * inverse remembers what really stood there. Null where the edit has no place any more: then nothing of it is done.
 */
export function applyEdit(value: Json, edit: Edit): Applied | null {
  let now = value;
  const back: Change[] = [];
  for (const change of edit.changes) {
    const done = applyChange(now, change, change.at);
    if (!done) return null;
    now = done.value;
    back.push(done.back);
  }
  return { value: now, inverse: { name: edit.name, changes: back.reverse() } };
}

interface Done {
  value: Json;
  back: Change;
}

function applyChange(value: Json, change: Change, path: JsonPath): Done | null {
  if (change.kind === "splice" && path.length === 0) return spliced(value, change);
  if (path.length === 0)
    return change.kind === "set" && change.now !== undefined
      ? { value: change.now, back: { kind: "set", at: change.at, was: change.now, now: value } }
      : null;
  const [step, ...rest] = path;
  if (change.kind === "set" && rest.length === 0 && typeof step === "string") return keySet(value, change, step);
  const inner = childOf(value, step!);
  if (inner === undefined) return null;
  const done = applyChange(inner, change, rest);
  return done && { value: withChild(value, step!, done.value), back: done.back };
}

function spliced(value: Json, change: Change & { kind: "splice" }): Done | null {
  if (!isList(value)) return null;
  const index = placeOfRun(value, change.was, change.index);
  if (index < 0) return null;
  const was = value.slice(index, index + change.was.length);
  return {
    value: [...value.slice(0, index), ...change.now, ...value.slice(index + was.length)],
    back: { kind: "splice", at: change.at, index, was: change.now, now: was },
  };
}

/** Where the run of entries stands, nearest to where it was; an insertion is kept inside the list. */
function placeOfRun(list: readonly Json[], run: readonly Json[], index: number): number {
  if (run.length === 0) return Math.min(index, list.length);
  const last = list.length - run.length;
  for (let off = 0; off <= Math.max(index, last - index); off++)
    for (const at of off === 0 ? [index] : [index - off, index + off])
      if (at >= 0 && at <= last && run.every((one, i) => sameJson(one, list[at + i]!))) return at;
  return -1;
}

function keySet(value: Json, change: Change & { kind: "set" }, key: string): Done | null {
  if (!isGroup(value)) return null;
  const had = Object.hasOwn(value, key);
  const was = had ? value[key]! : undefined;
  const next = had ? keyAfter(value, key) : change.next;
  return {
    value: change.now === undefined ? withoutKey(value, key) : withKey(value, key, change.now, change.next),
    back: setChange(change.at, change.now, was, next),
  };
}

function withKey(group: Group, key: string, value: Json, next: string | undefined): Json {
  if (Object.hasOwn(group, key)) return { ...group, [key]: value };
  const entries = Object.entries(group);
  const at = next === undefined ? -1 : entries.findIndex(([name]) => name === next);
  entries.splice(at < 0 ? entries.length : at, 0, [key, value]);
  return Object.fromEntries(entries);
}

function withoutKey(group: Group, key: string): Json {
  return Object.fromEntries(Object.entries(group).filter(([name]) => name !== key));
}

/** The key that stands after this one. */
export function keyAfter(group: { readonly [key: string]: Json }, key: string): string | undefined {
  const keys = Object.keys(group);
  return keys[keys.indexOf(key) + 1];
}

type Group = { readonly [key: string]: Json };
export function isList(value: Json): value is readonly Json[] {
  return Array.isArray(value);
}
export function isGroup(value: Json): value is Group {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function childOf(value: Json, step: string | number): Json | undefined {
  if (typeof step === "number") return isList(value) ? value[step] : undefined;
  return isGroup(value) && Object.hasOwn(value, step) ? value[step] : undefined;
}

function withChild(value: Json, step: string | number, child: Json): Json {
  if (typeof step === "number" && isList(value)) return value.map((one, i) => (i === step ? child : one));
  return { ...(value as Group), [step]: child };
}

/** Equal as JSON, the order of keys included: equal values have equal bytes. */
export function sameJson(a: Json, b: Json): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}
