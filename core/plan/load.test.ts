import fc from "fast-check";
import { expect, test } from "vitest";
import { loadJob } from "./load.ts";

const JOB = {
  format: "rowline/job@1",
  title: "Courtyard",
  currency: "EUR",
  site: {
    outline: [
      [0, 0],
      [6400, 0, 0.1],
      [6400, 4200],
      [2400, 4200],
      [2400, 2600],
      [0, 2600],
    ],
    sides: [
      "wall",
      { kind: "open" },
      { kind: "door", sill: 40, opens: "out", leafClear: 15 },
      "wall",
      "kerb",
      "outlet",
    ],
    cutouts: [
      {
        name: "post",
        ring: [
          [1000, 1000],
          [1100, 1000],
          [1100, 1100],
          [1000, 1100],
        ],
        gap: 5,
      },
      {
        name: "gully",
        ring: [
          [3000, 500, 1],
          [3200, 500, 1],
        ],
        height: "flush",
      },
    ],
    noDrill: [
      {
        ring: [
          [100, 100],
          [900, 100],
          [900, 900],
        ],
      },
    ],
    baseJoints: [
      [
        [3000, 0],
        [3000, 4200],
      ],
    ],
    offsets: [{ side: 0, along: 3000, offset: 6 }],
    slab: null,
  },
  survey: {
    levels: [
      [500, 500, 3],
      [1500, 500, 4],
    ],
    straightedges: [{ from: [0, 0], to: [1, 1], gap: 1 }],
    sigma: { tape: 2 },
  },
  base: {
    kind: "tiles",
    heating: "no",
    confirmed: [{ of: "membrane", by: "A", on: "2026-01-02" }],
    limits: { fallMin: 1.5 },
  },
  board: {
    lengths: [
      { length: 1500, price: 2100 },
      { length: 1200, stock: 3 },
    ],
    width: 145,
    rise: 25,
  },
  gaps: { sideRange: [4, 6] },
  bond: { kind: "third", angle: null },
  trim: null,
};
const TAPED = {
  ...JOB,
  site: { marks: ["A", "B", "C", "D"] },
  survey: {
    ties: [
      ["A", "B", 5000],
      ["B", "C", 4000],
      ["C", "D", 5000],
      ["D", "A", 4000],
      ["A", "C", 6403],
      ["B", "D", 6403],
    ],
  },
};
const value = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    true,
    -1,
    0,
    0.5,
    1e12,
    3,
    "",
    "A",
    "wall",
    [],
    {},
    [0, 0],
    [0, 0, 1],
    [
      [0, 0],
      [9, 0],
    ],
    { kind: "open" },
    "rowline/job@2",
  ),
  fc.double({ min: -1e4, max: 1e4, noNaN: true }),
  fc.jsonValue({ maxDepth: 3 }),
);
const spoiling = fc.array(fc.tuple(fc.nat(), value, fc.constantFrom("set", "add", "drop", "repeat")), {
  minLength: 1,
  maxLength: 6,
});

const copy = (one: unknown): unknown => (one === undefined ? null : JSON.parse(JSON.stringify(one)));

/** Every place something can be set, with its holder. */
function places(node: unknown, out: [Record<string, unknown>, string][] = []): [Record<string, unknown>, string][] {
  if (typeof node !== "object" || node === null) return out;
  for (const key of Object.keys(node)) {
    out.push([node as Record<string, unknown>, key]);
    places((node as Record<string, unknown>)[key], out);
  }
  return out;
}

test("a file spoilt anyhow is read or refused, never more; refused with a place and a line each", () => {
  let sound = 0;
  let refused = 0;
  fc.assert(
    fc.property(fc.boolean(), spoiling, (taped, spoils) => {
      const job = JSON.parse(JSON.stringify(taped ? TAPED : JOB)) as unknown;
      for (const [where, given, how] of spoils) {
        const what = copy(given);
        const all = places(job);
        const [holder, key] = all[where % all.length]!;
        if (how === "set") holder[key] = what;
        else if (how === "add") holder[Array.isArray(holder) ? String(holder.length) : `${key}y`] = what;
        else if (how === "drop" && !Array.isArray(holder)) delete holder[key];
        else if (how === "repeat" && Array.isArray(holder)) holder.push(copy(holder[Number(key)]));
      }
      const text = JSON.stringify(job, null, 1);
      const read = loadJob(text, "spoilt");
      if (read.ok) {
        sound++;
        const { survey } = read.value;
        expect(survey.sides).toHaveLength(survey.outline.length);
        expect(survey.areaMm2).toBeGreaterThan(0);
        expect(survey.netAreaMm2).toBeLessThanOrEqual(survey.areaMm2 + 1e-6);
      } else {
        refused++;
        expect(read.problems.length).toBeGreaterThan(0);
        const lines = text.split("\n").length;
        for (const one of read.problems) {
          expect(one.line).toBeLessThanOrEqual(lines);
          expect(one.file).toBe("spoilt");
        }
      }
    }),
    { seed: 2718, numRuns: 1500 },
  );
  expect(sound).toBeGreaterThan(50);
  expect(refused).toBeGreaterThan(500);
});

test("a text cut off anywhere, or with a byte changed, is read or refused", () => {
  const text = JSON.stringify(JOB);
  fc.assert(
    fc.property(fc.nat(text.length), fc.string({ maxLength: 3, unit: "binary" }), fc.nat(4), (at, put, gone) => {
      const read = loadJob(text.slice(0, at) + put + text.slice(at + gone), "cut");
      if (!read.ok) expect(read.problems.length).toBeGreaterThan(0);
      const short = loadJob(text.slice(0, at), "cut");
      expect(short.ok).toBe(at === text.length);
    }),
    { seed: 31415, numRuns: 700 },
  );
});
