import * as jsonc from "jsonc-parser";
import { LIMITS } from "../base/limits.ts";
import type { ReadProblems, SyntaxWhat } from "./codes.ts";
import { placesOf, type TextPlace } from "./locate.ts";
import { type JsonPath, type PathProblem, type Problem, placeOf } from "./problem.ts";

export interface JsonText {
  /** The value, where the text is sound JSON (repeated keys: the last one counts); else undefined. */
  value: unknown;
  sound: boolean;
  /** Everything found while reading the text alone. */
  problems: Problem[];
  /** How many more there were than anyone would read; counted, not kept. */
  unlisted: number;
  /** Line and column of a path, 1-based. */
  locate(path: JsonPath, onKey?: boolean): TextPlace;
  /** Gives problems found in the value their line and column, all in one walk over the text. */
  place(found: readonly PathProblem[]): Problem[];
}

/**
 * Reads a JSON text strictly (RFC 8259: no comments, no trailing commas) and tells of everything at once: each syntax
 * problem, repeated keys, numbers beyond a double, texts that are not Unicode. A byte order mark is tolerated.
 * Size and depth are checked before anything recurses.
 */
export function readJson(given: string, file: string): JsonText {
  const text = given.charCodeAt(0) === 0xfeff ? given.slice(1) : given;
  const early = tooLarge(text, file) ?? tooDeep(text, file);
  if (early) return unsound(file, [early]);
  const { syntax, other, unlisted } = scan(text, file);
  if (syntax.length > 0) return unsound(file, [...syntax, ...other].sort(byPlace), unlisted);
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    // the tolerant scanner let something through that the strict one does not
    return unsound(file, [problem(file, "syntax", 1, 1, [], { what: "other", found: "" }), ...other]);
  }
  const place = (found: readonly PathProblem[]): Problem[] => {
    const places = placesOf(text, found);
    return found.map(({ code, data, path }, i) => ({ code, file, ...places[i]!, place: placeOf(path), data }));
  };
  return {
    value,
    sound: true,
    problems: other,
    unlisted,
    locate: (path, onKey = false) => placesOf(text, [{ path, onKey }])[0]!,
    place,
  };
}

/** Orders problems as they stand in the file. */
export function byPlace(a: Problem, b: Problem): number {
  return a.line - b.line || a.column - b.column;
}

/** At most LIMITS.problems of them, in the order of the file; a last one tells how many more there are. */
export function listed(problems: readonly Problem[], file: string, unlisted = 0): Problem[] {
  const sorted = [...problems].sort(byPlace);
  const over = Math.max(0, sorted.length - LIMITS.problems) + unlisted;
  if (over === 0) return sorted;
  return [...sorted.slice(0, LIMITS.problems), problem(file, "moreProblems", 0, 0, [], { count: over })];
}

function unsound(file: string, problems: Problem[], unlisted = 0): JsonText {
  const nowhere = { line: 1, column: 1 };
  return {
    value: undefined,
    sound: false,
    problems,
    unlisted,
    locate: () => nowhere,
    place: (found) => found.map(({ code, data, path }) => ({ code, file, ...nowhere, place: placeOf(path), data })),
  };
}

function problem<C extends keyof ReadProblems & string>(
  file: string,
  code: C,
  line: number,
  column: number,
  path: JsonPath,
  data: ReadProblems[C],
): Problem<C, ReadProblems[C]> {
  return { code, file, line, column, place: placeOf(path), data };
}

function tooLarge(text: string, file: string): Problem | null {
  if (text.trim() === "") return problem(file, "textEmpty", 1, 1, [], {});
  if (text.length * 3 <= LIMITS.textBytes) return null;
  let bytes = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    // a pair of surrogates is four bytes, two for each half
    bytes += c < 0x80 ? 1 : c < 0x800 || (c >= 0xd800 && c <= 0xdfff) ? 2 : 3;
  }
  return bytes > LIMITS.textBytes ? problem(file, "textTooLarge", 1, 1, [], { bytes, limit: LIMITS.textBytes }) : null;
}

/** Counts brackets outside strings without recursing, so that a wall of them cannot exhaust the stack. */
function tooDeep(text: string, file: string): Problem | null {
  let depth = 0;
  let line = 1;
  let lineStart = 0;
  let inString = false;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 10) {
      line++;
      lineStart = i + 1;
      inString = false;
    } else if (inString) {
      if (c === 92) i++;
      else if (c === 34) inString = false;
    } else if (c === 34) inString = true;
    else if (c === 91 || c === 123) {
      if (++depth > LIMITS.jsonDepth) {
        return problem(file, "tooDeep", line, i - lineStart + 1, [], { limit: LIMITS.jsonDepth });
      }
    } else if (c === 93 || c === 125) depth--;
  }
  return null;
}

const SYNTAX: Record<number, SyntaxWhat> = {
  1: "symbol",
  2: "number",
  3: "nameExpected",
  4: "valueExpected",
  5: "colonExpected",
  6: "commaExpected",
  7: "closeBrace",
  8: "closeBracket",
  9: "afterEnd",
  10: "comment",
  11: "comment",
  12: "openString",
  13: "number",
  14: "unicode",
  15: "escape",
  16: "character",
};
const LONE_SURROGATE = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/;

function scan(text: string, file: string): { syntax: Problem[]; other: Problem[]; unlisted: number } {
  const syntax: Problem[] = [];
  const other: Problem[] = [];
  let unlisted = 0;
  let strayEnd = -1;
  const keep = (list: Problem[], found: Problem): void => {
    if (list.length < LIMITS.problems) list.push(found);
    else unlisted++;
  };
  const names: Map<string, number>[] = [];
  const textCheck = (value: string, line: number, column: number, path: () => JsonPath): void => {
    if (LONE_SURROGATE.test(value)) {
      const found = JSON.stringify(value.slice(0, 40));
      keep(other, problem(file, "brokenText", line + 1, column + 1, path(), { found }));
    }
  };
  jsonc.visit(
    text,
    {
      onError: (error, offset, length, line, column) => {
        // one slip makes the scanner complain twice: at the same spot, or once more for the value it threw away
        const last = syntax[syntax.length - 1];
        if (last && last.line === line + 1 && last.column === column + 1) return;
        const what = SYNTAX[error] ?? "other";
        if (what === "valueExpected" && strayEnd >= 0 && text.slice(strayEnd, offset).trim() === "") return;
        if (what === "symbol") strayEnd = offset + length;
        const found = text.slice(offset, offset + Math.min(Math.max(length, 1), 24));
        keep(syntax, problem(file, "syntax", line + 1, column + 1, [], { what, found }));
      },
      onObjectBegin: () => {
        names.push(new Map());
      },
      onObjectEnd: () => {
        names.pop();
      },
      onObjectProperty: (key, _offset, _length, line, column, path) => {
        textCheck(key, line, column, () => [...path(), key]);
        const seen = names[names.length - 1]!;
        const firstLine = seen.get(key);
        if (firstLine === undefined) seen.set(key, line + 1);
        else keep(other, problem(file, "repeatedKey", line + 1, column + 1, [...path(), key], { key, firstLine }));
      },
      onLiteralValue: (value: unknown, offset, length, line, column, path) => {
        if (typeof value === "string") textCheck(value, line, column, path);
        else if (typeof value === "number" && !Number.isFinite(value)) {
          const found = text.slice(offset, offset + Math.min(length, 24));
          keep(other, problem(file, "notFinite", line + 1, column + 1, path(), { found }));
        }
      },
    },
    { disallowComments: true, allowTrailingComma: false },
  );
  return { syntax, other, unlisted };
}
