import fc from "fast-check";
import type { TSchema } from "typebox";
import { Value } from "typebox/value";
import { describe, expect, test } from "vitest";
import { jobRule, jobSchema } from "../job/schema.ts";
import { editDistance, nearest } from "./nearest.ts";
import type { Rule } from "./rule.ts";
import { validate } from "./validate.ts";

const rule: Rule = {
  type: "object",
  additionalProperties: false,
  required: ["width", "kind"],
  properties: {
    width: { type: "number", exclusiveMinimum: 0, maximum: 100, "x-unit": "mm" },
    kind: { enum: ["wall", "door", "open"], type: "string" },
    count: { type: "integer", minimum: 1 },
    list: { type: "array", items: { type: "string", maxLength: 3 }, maxItems: 2 },
    side: {
      anyOf: [
        { type: "null" },
        { type: "object", properties: { gap: { type: "number" } }, additionalProperties: false },
      ],
    },
    point: { type: "array", prefixItems: [{ type: "number" }, { type: "number" }], minItems: 2, maxItems: 2 },
  },
};
const found = (value: unknown) =>
  validate(rule, value).problems.map(({ path, code, data }) => ({ path: path.join("."), code, data }));

describe("every breach is told of", () => {
  test("all at once, each with its place", () => {
    const value = {
      widht: 300,
      kind: "dor",
      count: 1.5,
      list: ["abcd", 5, "x"],
      side: { gap: "5" },
      point: [1],
      "x-own": {},
    };
    expect(found(value).map((one) => [one.path, one.code])).toEqual([
      ["widht", "unknownKey"],
      ["widht", "tooGreat"],
      ["kind", "wrongChoice"],
      ["count", "notWhole"],
      ["list", "tooMany"],
      ["list.0", "textTooLong"],
      ["list.1", "wrongType"],
      ["side.gap", "wrongType"],
      ["point", "tooFew"],
    ]);
  });

  test("with the nearest right name, of keys and of choices", () => {
    expect(found({ widht: 5, kind: "WALL" })).toMatchObject([
      { code: "unknownKey", data: { nearest: "width" } },
      { code: "wrongChoice", data: { nearest: "wall" } },
    ]);
    expect(found({ width: 5, kind: "door", gap: 3 })).toMatchObject([
      { data: { nearest: null, elsewhere: "side.gap" } },
    ]);
  });

  test("what is missing is told of once, under the place it should have", () => {
    expect(found({ kind: "wall" })).toMatchObject([{ path: "width", code: "missing", data: { expected: ["number"] } }]);
  });

  test("a value of no expected kind names all of them", () => {
    expect(found({ width: null, kind: 4, side: "no" })).toMatchObject([
      { data: { found: { kind: "null" }, expected: ["number"] } },
      { data: { found: { kind: "number" }, expected: ["text"], choices: ["wall", "door", "open"] } },
      { data: { found: { kind: "text", shown: '"no"' }, expected: ["null", "object"] } },
    ]);
  });

  test("keys named like an object's own parts are unknown keys", () => {
    expect(
      found(JSON.parse('{"width":1,"kind":"wall","constructor":1,"__proto__":2,"toString":3}')).map((one) => one.code),
    ).toEqual(["unknownKey", "unknownKey", "unknownKey"]);
  });

  test("beyond the limit they are counted", () => {
    const many = validate(
      { type: "array", items: { type: "string" } },
      Array.from({ length: 5000 }, (_, i) => i),
    );
    expect(many.problems.length + many.unlisted).toBe(5000);
  });
});

describe("nearest names", () => {
  test("swaps, gaps, case and joints are near; other words are not", () => {
    expect(nearest("lenghts", ["length", "lengths", "board"])).toBe("lengths");
    expect(nearest("no_drill", ["noDrill", "slab"])).toBe("noDrill");
    expect(nearest("colour", ["width", "rise"])).toBeNull();
    expect(nearest("ab", ["x", "y"])).toBeNull();
  });
  test("distance is a distance", () => {
    const word = fc.string({ maxLength: 8 });
    fc.assert(
      fc.property(word, word, (a, b) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b) === 0).toBe(a === b);
        expect(editDistance(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
      }),
      { seed: 5, numRuns: 300 },
    );
  });
});

/** A sound job, for spoiling. */
const JOB = {
  format: "rowline/job@1",
  title: "t",
  site: {
    outline: [
      [0, 0],
      [3000, 0, 0.1],
      [3000, 2000],
    ],
    sides: ["wall", { kind: "open", gap: null }, "door"],
    cutouts: [
      {
        ring: [
          [0, 0],
          [1, 0],
          [0, 1],
        ],
      },
    ],
  },
  survey: { levels: [[0, 0, 1]], ties: [["A", "B", 10]], sigma: { tape: 1 } },
  base: { membrane: "no", firm: true, limits: { fallMin: 1 } },
  board: { lengths: [{ length: 1500, stock: null }], width: 145, rise: 25 },
  bond: { angle: null, kind: "free" },
  trim: null,
  prices: { fixing: 20 },
};

test("says yes and no as an independent validator of the same schema does, on spoilt jobs", () => {
  const spoil = fc.oneof(
    fc.constantFrom(null, true, -1, 0, 0.5, 1e12, "", "wall", "unknown", "EUR", [], {}, [1, 2], [[1]], { length: 1 }),
    fc.jsonValue({ maxDepth: 2 }),
  );
  let refused = 0;
  fc.assert(
    fc.property(fc.nat(), spoil, fc.boolean(), (where, value, add) => {
      const job = JSON.parse(JSON.stringify(JOB)) as Record<string, unknown>;
      const places: [Record<string, unknown>, string][] = [];
      const walk = (node: unknown): void => {
        if (typeof node !== "object" || node === null) return;
        for (const key of Object.keys(node)) {
          places.push([node as Record<string, unknown>, key]);
          walk((node as Record<string, unknown>)[key]);
        }
      };
      walk(job);
      const [holder, key] = places[where % places.length]!;
      holder[add && !Array.isArray(holder) ? `${key}s` : key] = value;
      const ours = validate(jobRule, job).problems.length === 0;
      expect(ours).toBe(Value.Check(jobSchema as unknown as TSchema, job));
      if (!ours) refused++;
    }),
    { seed: 99, numRuns: 2000 },
  );
  expect(refused).toBeGreaterThan(500);
});
