import type { JsonPath } from "./problem.ts";

export interface TextPlace {
  line: number;
  column: number;
}
/** One question: where does this path stand; `onKey` asks for the name in place of the value. */
export interface Asked {
  path: JsonPath;
  onKey?: boolean;
}

/**
 * Lines and columns (1-based) of many paths in one walk over a text that is known to be sound JSON.
 * A path that is not there gives the place of its nearest ancestor. O(text) and no tree in memory,
 * so a problem in the last of two million readings costs no more than reading the file again.
 */
export function placesOf(text: string, asked: readonly Asked[]): TextPlace[] {
  const offsets = asked.map(() => 0);
  const root: Wanted = { children: new Map(), ids: [], keyIds: [] };
  asked.forEach(({ path, onKey }, id) => {
    let at = root;
    path.forEach((step, depth) => {
      let next = at.children.get(step);
      if (!next) {
        next = { children: new Map(), ids: [], keyIds: [] };
        at.children.set(step, next);
      }
      at = next;
      if (depth === path.length - 1 && onKey) at.keyIds.push(id);
    });
    if (!onKey || path.length === 0) at.ids.push(id);
  });
  walk(text, skipSpace(text, 0), root, offsets);
  return toLines(text, offsets);
}

interface Wanted {
  children: Map<string | number, Wanted>;
  ids: number[];
  keyIds: number[];
}

/** Notes where wanted things stand; returns the offset after the value. Depth is bounded by the reader's limit. */
function walk(text: string, start: number, wanted: Wanted, offsets: number[]): number {
  settle(wanted, start, offsets);
  const open = text[start];
  if ((open !== "{" && open !== "[") || wanted.children.size === 0) return skipValue(text, start);
  let at = skipSpace(text, start + 1);
  for (let index = 0; text[at] !== "}" && text[at] !== "]"; index++) {
    let child: Wanted | undefined;
    if (open === "{") {
      const keyStart = at;
      at = skipString(text, at);
      child = wanted.children.get(JSON.parse(text.slice(keyStart, at)) as string);
      for (const id of child?.keyIds ?? []) offsets[id] = keyStart;
      at = skipSpace(text, skipSpace(text, at) + 1);
    } else child = wanted.children.get(index);
    at = skipSpace(text, child ? walk(text, at, child, offsets) : skipValue(text, at));
    if (text[at] === ",") at = skipSpace(text, at + 1);
    if (at >= text.length) break;
  }
  return at + 1;
}

/** Everything below stands here until it is found deeper. */
function settle(wanted: Wanted, offset: number, offsets: number[]): void {
  for (const id of wanted.ids) offsets[id] = offset;
  for (const child of wanted.children.values()) {
    for (const id of child.keyIds) offsets[id] = offset;
    settle(child, offset, offsets);
  }
}

function skipSpace(text: string, from: number): number {
  let at = from;
  while (at < text.length && text.charCodeAt(at) <= 32) at++;
  return at;
}

function skipString(text: string, from: number): number {
  let at = from + 1;
  while (at < text.length && text[at] !== '"') at += text[at] === "\\" ? 2 : 1;
  return at + 1;
}

function skipValue(text: string, from: number): number {
  let depth = 0;
  let at = from;
  while (at < text.length) {
    const c = text[at];
    if (c === '"') at = skipString(text, at);
    else if (c === "{" || c === "[") {
      depth++;
      at++;
    } else if (c === "}" || c === "]") {
      if (depth === 0) return at;
      depth--;
      at++;
    } else if (depth === 0 && (c === "," || text.charCodeAt(at) <= 32)) return at;
    else at++;
    if (depth === 0 && (text[at - 1] === "}" || text[at - 1] === "]" || text[at - 1] === '"')) return at;
  }
  return at;
}

/** Offsets to lines and columns in one pass; CR, LF and CR LF each end a line. */
function toLines(text: string, offsets: readonly number[]): TextPlace[] {
  const places: TextPlace[] = offsets.map(() => ({ line: 1, column: 1 }));
  const order = offsets.map((_, i) => i).sort((a, b) => offsets[a]! - offsets[b]!);
  let line = 1;
  let lineStart = 0;
  let at = 0;
  for (const id of order) {
    for (; at < offsets[id]!; at++) {
      const c = text.charCodeAt(at);
      if (c === 10 || (c === 13 && text.charCodeAt(at + 1) !== 10)) {
        line++;
        lineStart = at + 1;
      }
    }
    places[id] = { line, column: offsets[id]! - lineStart + 1 };
  }
  return places;
}
