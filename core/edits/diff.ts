import type { JsonPath } from "../read/problem.ts";
import { isGroup, isList, keyAfter, sameJson } from "./apply.ts";
import { type Change, type Edit, type EditName, type Json, setChange } from "./edit.ts";

/** The small edit that turns one value into another; null where nothing differs. */
export function diffEdit(name: EditName, from: Json, to: Json): Edit | null {
  const changes: Change[] = [];
  compare(from, to, [], changes);
  return changes.length > 0 ? { name, changes } : null;
}

function compare(from: Json, to: Json, at: JsonPath, out: Change[]): void {
  if (sameJson(from, to)) return;
  if (isGroup(from) && isGroup(to) && sameOrder(from, to)) compareKeys(from, to, at, out);
  else if (isList(from) && isList(to)) compareLists(from, to, at, out);
  else out.push({ kind: "set", at, was: from, now: to });
}

type Group = { readonly [key: string]: Json };

/** Keys that stay keep their order: otherwise the group is replaced whole. */
function sameOrder(from: Group, to: Group): boolean {
  const stays = (group: Group, other: Group) =>
    Object.keys(group)
      .filter((key) => Object.hasOwn(other, key))
      .join("\n");
  return stays(from, to) === stays(to, from);
}

/** Keys that go, first to last; keys that change; keys that come, last to first, so that the next one stands already. */
function compareKeys(from: Group, to: Group, at: JsonPath, out: Change[]): void {
  for (const key of Object.keys(from)) {
    if (Object.hasOwn(to, key)) continue;
    out.push(setChange([...at, key], from[key]!, undefined, keyAfter(from, key)));
  }
  for (const key of Object.keys(from)) if (Object.hasOwn(to, key)) compare(from[key]!, to[key]!, [...at, key], out);
  for (const key of Object.keys(to).reverse()) {
    if (Object.hasOwn(from, key)) continue;
    out.push(setChange([...at, key], undefined, to[key]!, keyAfter(to, key)));
  }
}

/** What differs between a common beginning and a common end; a single entry is looked into. */
function compareLists(from: readonly Json[], to: readonly Json[], at: JsonPath, out: Change[]): void {
  let head = 0;
  while (head < from.length && head < to.length && sameJson(from[head]!, to[head]!)) head++;
  let tail = 0;
  while (
    tail < from.length - head &&
    tail < to.length - head &&
    sameJson(from[from.length - 1 - tail]!, to[to.length - 1 - tail]!)
  )
    tail++;
  const was = from.slice(head, from.length - tail);
  const now = to.slice(head, to.length - tail);
  const group = was.length === 1 && now.length === 1 && isGroup(was[0]!) && isGroup(now[0]!);
  if (group) compare(was[0]!, now[0]!, [...at, head], out);
  else out.push({ kind: "splice", at, index: head, was, now });
}
