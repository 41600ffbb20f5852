import { expect, test } from "vitest";
import type { JobDraft } from "../edits/draft.ts";
import { dropCorner, nearestSide, partSide } from "./sides.ts";

const job = (): JobDraft => ({
  format: "rowline/job@1",
  title: "t",
  site: {
    outline: [
      [0, 0],
      [5000, 0],
      [5000, 3000],
      [0, 3000],
    ],
    sides: ["wall", "open", "wall", "kerb"],
    offsets: [{ side: 2, along: 100, offset: 3 }],
  },
  survey: { ties: [["A", "C", 5831]] },
});

test("a door in a wall: two corners more, the wall on both sides of it, later names and offsets moved on", () => {
  const one = job();
  expect(partSide(one, 0, 1200, 900, { kind: "door", sill: 40 })).toBe(true);
  expect(one.site.outline!.slice(0, 4)).toEqual([
    [0, 0],
    [1200, 0],
    [2100, 0],
    [5000, 0],
  ]);
  expect(one.site.sides).toEqual(["wall", { kind: "door", sill: 40 }, "wall", "open", "wall", "kerb"]);
  expect(one.survey!.ties).toEqual([["A", "E", 5831]]);
  expect(one.site.offsets![0]!.side).toBe(4);
});

test("a part that begins at the corner adds one corner, one over the whole side none, one past its end is refused", () => {
  const one = job();
  expect(partSide(one, 0, 0, 900, "door")).toBe(true);
  expect(one.site.sides).toEqual(["door", "wall", "open", "wall", "kerb"]);
  const whole = job();
  expect(partSide(whole, 1, 0, 3000, "door")).toBe(true);
  expect([whole.site.outline!.length, whole.site.sides![1]]).toEqual([4, "door"]);
  const past = job();
  expect(partSide(past, 1, 2500, 900, "door")).toBe(false);
  expect(past).toEqual(job());
});

test("a corner taken out takes its side and its tapes along", () => {
  const one = job();
  partSide(one, 0, 1200, 900, "door");
  expect(dropCorner(one, 1)).toBe(true);
  expect(dropCorner(one, 1)).toBe(true);
  expect(one.site.outline).toEqual(job().site.outline);
  expect(one.survey!.ties).toEqual([["A", "C", 5831]]);
  dropCorner(one, 2);
  expect([one.survey!.ties, dropCorner(one, 0)]).toEqual([[], false]);
});

test("the nearest side", () => {
  const points = job().site.outline!.map(([x, y]) => [x, y] as const);
  expect(nearestSide(points, [4900, 1500])).toEqual({ side: 1, away: 100 });
});
