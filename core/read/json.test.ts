import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { LIMITS } from "../base/limits.ts";
import { readJson } from "./json.ts";
import type { JsonPath } from "./problem.ts";

const codes = (text: string): string[] => readJson(text, "f").problems.map((one) => one.code);
const syntax = (text: string): unknown[] =>
  readJson(text, "f").problems.map((one) => (one.data as { what: string }).what);

describe("a text is read strictly", () => {
  test("what JSON does not know is told of, with its line and column", () => {
    expect(syntax('{"a": 1, // no\n "b": 2}')).toEqual(["comment"]);
    expect(syntax('{"a": [1, 2,], "b": 3,}')).toEqual(["valueExpected", "nameExpected"]);
    expect(syntax('{"a": nul}')).toContain("symbol");
    expect(syntax('{"a" 1, "b": "x\\q"}')).toEqual(["colonExpected", "escape"]);
    expect(syntax('{"a": "open\n}')).toContain("openString");
    expect(syntax('{"a": 1 "b": 2}')).toEqual(["commaExpected"]);
    expect(syntax("[1, 2")).toEqual(["closeBracket"]);
    expect(syntax('{"a": 1')).toEqual(["closeBrace"]);
    expect(syntax("{} {}")).toEqual(["afterEnd"]);
    expect(syntax('{"a": "\\u12"}')).toContain("unicode");
    expect(syntax('{"a": "\u0001"}')).toContain("character");
    const [found] = readJson('{\n  "a": 1,\n  "b": 01\n}', "f").problems;
    expect(found).toMatchObject({ code: "syntax", line: 3 });
  });

  test("several slips are several problems", () => {
    expect(readJson('{"a": tru,\n "b": [1 2],\n "c": "\\z"}', "f").problems.map((one) => one.line)).toEqual([1, 2, 3]);
  });

  test("size and depth are refused before anything recurses", () => {
    expect(codes("[".repeat(1_000_000))).toEqual(["tooDeep"]);
    const deep = `${"[".repeat(LIMITS.jsonDepth)}${"]".repeat(LIMITS.jsonDepth)}`;
    expect(codes(deep)).toEqual([]);
    expect(codes(`[${deep}]`)).toEqual(["tooDeep"]);
    expect(codes(`"${"[{".repeat(100)}"`)).toEqual([]);
    expect(codes(`"${"\u00e9".repeat(LIMITS.textBytes / 2)}"`)).toEqual(["textTooLarge"]);
    expect(codes(" \n ")).toEqual(["textEmpty"]);
  });

  test("repeated keys, numbers beyond a double and halves of characters are told of beside each other", () => {
    const text = readJson('{"a": 1, "b": {"c": 1e999, "c": -1e999},\n "a": "\\ud800"}', "f");
    expect(text.problems.map((one) => [one.code, one.place])).toEqual([
      ["notFinite", "b.c"],
      ["repeatedKey", "b.c"],
      ["notFinite", "b.c"],
      ["repeatedKey", "a"],
      ["brokenText", "a"],
    ]);
    expect(text.problems[3]).toMatchObject({ line: 2, column: 2, data: { key: "a", firstLine: 1 } });
    expect(codes('{"a": "\\ud83d\\ude00"}')).toEqual([]);
  });

  test("a byte order mark is tolerated and moves nothing", () => {
    expect(readJson('\ufeff{"a": 1}', "f").value).toEqual({ a: 1 });
    expect(readJson('\ufeff{"a": 1, "a": 2}', "f").problems[0]).toMatchObject({ line: 1, column: 10 });
  });

  test("a key that would change an object's nature is a key like any other", () => {
    const value = readJson('{"__proto__": {"polluted": true}}', "f").value as Record<string, unknown>;
    expect(Object.keys(value)).toEqual(["__proto__"]);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  test("a wall of slips is counted, not kept", () => {
    const text = readJson("x ".repeat(200_000), "f");
    expect(text.problems.length).toBeLessThanOrEqual(2 * LIMITS.problems);
  });
});

/** Every path of a value. */
function pathsOf(value: unknown, path: JsonPath = []): JsonPath[] {
  if (typeof value !== "object" || value === null) return [path];
  const entries: [string | number, unknown][] = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  return [path, ...entries.flatMap(([step, child]) => pathsOf(child, [...path, step]))];
}

test("every path of every text leads to where its value stands", () => {
  fc.assert(
    fc.property(fc.jsonValue({ maxDepth: 5 }), fc.constantFrom(0, 1, 3, "\t"), (value, space) => {
      const text = JSON.stringify(value, null, space);
      const read = readJson(text, "f");
      expect(read.problems.filter((one) => one.code !== "brokenText")).toEqual([]);
      const lines = text.split("\n");
      for (const path of pathsOf(read.value)) {
        const { line, column } = read.locate(path);
        const rest = lines
          .slice(line - 1)
          .join("\n")
          .slice(column - 1);
        let expected: unknown = read.value;
        for (const step of path) expected = (expected as Record<string, unknown>)[step];
        expect(rest.startsWith(JSON.stringify(expected)[0]!)).toBe(true);
        if (typeof expected !== "object" || expected === null)
          expect(rest.startsWith(JSON.stringify(expected))).toBe(true);
        const name = path[path.length - 1];
        if (typeof name !== "string") continue;
        const key = read.locate(path, true);
        expect(lines[key.line - 1]!.slice(key.column - 1).startsWith(JSON.stringify(name))).toBe(true);
      }
    }),
    { seed: 4711, numRuns: 300 },
  );
});

test("a path that is not there leads to what would hold it", () => {
  const read = readJson('{\n "a": {\n  "b": []}}', "f");
  expect(read.locate(["a", "b", 3])).toEqual({ line: 3, column: 8 });
  expect(read.locate(["a", "z"])).toEqual({ line: 2, column: 7 });
  expect(read.locate(["z"], true)).toEqual({ line: 1, column: 1 });
});
