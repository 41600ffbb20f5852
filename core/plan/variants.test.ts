import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { loadJob } from "./load.ts";
import { makePlan, tryRows } from "./make.ts";
import { directions, markUnbeaten, planWay, type Variant, variantOf, waysToSetOut } from "./variants.ts";

const text = readFileSync(new URL("../../examples/courtyard.job.json", import.meta.url), "utf8");
const read = loadJob(text, "courtyard");
if (!read.ok) throw new Error("the example must load");
const loaded = read.value;
const now = makePlan(loaded);

test("a plan on a judged base is the plan", () => {
  expect(makePlan(loaded, undefined, now)).toEqual(now);
});

test("rows that are tried are the plan's rows", () => {
  expect(tryRows(loaded, now)).toEqual({ setout: now.setout, bond: now.bond });
});

test("every bond along and across the walls, each direction once, the present first", () => {
  const ways = waysToSetOut(now.survey, 0);
  expect(ways.map(({ kind, angleDeg }) => `${kind} ${angleDeg}`)).toEqual(
    [0, 90].flatMap((deg) => ["half", "third", "free", "stack"].map((kind) => `${kind} ${deg}`)),
  );
  expect(directions(now.survey, 30).slice(0, 2)).toEqual([30, 120]);
});

test("the present set-out as a variant has the plan's own figures", () => {
  const same = variantOf(planWay(loaded, now, { kind: "half", angleDeg: 0 }));
  const { figures } = variantOf(now);
  expect(same.figures).toEqual(figures);
  expect(figures.boards).toBe(now.cutting.boards.length);
  expect(figures.costMinor).toBe(now.takeoff.totalMinor);
  expect(planWay(loaded, now, { kind: "stack", angleDeg: 90 }).setout.frame.angleDeg).toBe(90);
});

test("what is marked is beaten by nothing, what is not marked is beaten by something marked", () => {
  const figure = fc.integer({ min: 0, max: 3 });
  const variant = fc.tuple(figure, figure, figure, fc.option(figure), fc.option(figure), figure).map(
    ([costMinor, boards, cuts, smallestRipMm, smallestPieceMm, warnings]): Variant => ({
      kind: "half",
      angleDeg: 0,
      unbeaten: false,
      picture: new Float32Array(),
      figures: {
        costMinor,
        boards,
        cuts,
        smallestRipMm,
        smallestPieceMm,
        warnings,
        stops: 0,
        rips: 0,
        unpriced: 0,
        boardsAtLeast: 0,
      },
    }),
  );
  const noWorse = (a: Variant, b: Variant) =>
    a.figures.costMinor <= b.figures.costMinor &&
    a.figures.boards <= b.figures.boards &&
    a.figures.cuts <= b.figures.cuts &&
    (a.figures.smallestRipMm ?? 99) >= (b.figures.smallestRipMm ?? 99) &&
    (a.figures.smallestPieceMm ?? 99) >= (b.figures.smallestPieceMm ?? 99) &&
    a.figures.warnings <= b.figures.warnings;
  fc.assert(
    fc.property(fc.array(variant, { minLength: 1, maxLength: 12 }), (list) => {
      const marked = markUnbeaten(list);
      for (const one of marked) {
        const better = marked.filter((other) => noWorse(other, one) && !noWorse(one, other));
        expect(one.unbeaten).toBe(better.length === 0);
        if (!one.unbeaten) expect(better.some((other) => other.unbeaten)).toBe(true);
      }
    }),
    { seed: 11, numRuns: 200 },
  );
});
