import fc from "fast-check";
import { expect, test } from "vitest";
import { flattenRing } from "../geometry/arc.ts";
import { insideRing, nextPoint, proposeGrid, readStaff } from "./levels.ts";
import { bulgeOf, outlineSign, placePoint, placeRing } from "./place.ts";
import { snapPoint } from "./snap.ts";
import { nextTie, tiesNeeded, withTie } from "./ties.ts";
import { closedWalk, closings, distance, type Leg, markName, simple, walkPoints, walkTies } from "./walk.ts";

const leg = (mm: number, turn: Leg["turn"] = "left"): Leg => ({ mm, turn });
const ROOM: [number, number][] = [
  [0, 0],
  [5000, 0],
  [5000, 3000],
  [0, 3000],
];

test("two lengths close as a rectangle, the two other sides computed", () => {
  const legs = [leg(5000), leg(3000)];
  const [first, ...others] = closings(legs);
  expect(first).toEqual({ corners: [[0, 3000]], sides: [5000, 3000], square: true });
  expect(closedWalk(legs, first!)).toEqual(ROOM);
  expect(others).toEqual([{ corners: [], sides: [Math.sqrt(34_000_000)], square: false }]);
  expect(walkTies(legs, 4)).toEqual([
    ["A", "B", 5000],
    ["B", "C", 3000],
  ]);
});

test("an L walked with left and right turns closes with the one side left", () => {
  const legs = [leg(6400), leg(4200), leg(4000), leg(1600), leg(2400, "right")];
  const [first] = closings(legs);
  expect(first).toEqual({ corners: [], sides: [2600], square: true });
  expect(closedWalk(legs, first!)).toEqual([
    [0, 0],
    [6400, 0],
    [6400, 4200],
    [2400, 4200],
    [2400, 2600],
    [0, 2600],
  ]);
});

test("a walk that comes back to its start is closed already; one leg or a line cannot be closed", () => {
  expect(closings([leg(5000), leg(3000), leg(5000), leg(3000)])).toEqual([{ corners: [], sides: [], square: true }]);
  expect(closings([leg(5000)])).toEqual([]);
  expect(closings([leg(5000), leg(1000, "straight")])).toEqual([]);
});

test("every closing is a simple outline whose sides have the lengths typed and said", () => {
  const legs = fc.array(
    fc.record({ mm: fc.integer({ min: 100, max: 9000 }), turn: fc.constantFrom("left", "right", "straight") }),
    { minLength: 2, maxLength: 8 },
  );
  fc.assert(
    fc.property(legs, (walk) => {
      for (const closing of closings(walk as Leg[])) {
        const ring = closedWalk(walk as Leg[], closing).map(([x, y]): [number, number] => [x, y]);
        expect(simple(ring)).toBe(true);
        const lengths = [...walk.map(({ mm }) => mm), ...closing.sides];
        ring.forEach((at, i) => {
          expect(distance(at, ring[(i + 1) % ring.length]!)).toBeCloseTo(lengths[i]!, 6);
        });
      }
    }),
    { seed: 11, numRuns: 500 },
  );
  expect(walkPoints([leg(10), leg(5, "right")])).toEqual([
    [0, 0],
    [10, 0],
    [10, -5],
  ]);
  expect([0, 25, 26, 53].map(markName)).toEqual(["A", "Z", "A2", "B3"]);
});

test("a thing stands at its clear distances from two walls, whichever way round the outline runs", () => {
  const clockwise = [...ROOM].reverse();
  expect([outlineSign(ROOM), outlineSign(clockwise)]).toEqual([1, -1]);
  const size = { along: 120, deep: 80, round: false };
  // 700 from the lower wall, 900 from the right one
  const ring = placeRing(ROOM, { fromSide: 0, from: 700, toSide: 1, to: 900, ...size })!;
  expect(ring).toEqual([
    [4100, 700],
    [3980, 700],
    [3980, 780],
    [4100, 780],
  ]);
  // reversed: corners (0,3000) (5000,3000) (5000,0) (0,0): side 2 is the lower wall, side 1 the right one
  expect(placeRing(clockwise, { fromSide: 2, from: 700, toSide: 1, to: 900, ...size })).toEqual(ring);
  expect(placeRing(ROOM, { fromSide: 0, from: 1, toSide: 2, to: 1, ...size })).toBeNull();
  expect(placePoint(ROOM, { side: 0, mm: 250 }, { side: 3, mm: 40 })).toEqual([40, 250]);
});

test("a round thing keeps its distances and its size", () => {
  for (const toSide of [1, 3]) {
    const ring = placeRing(ROOM, { fromSide: 0, from: 300, toSide, to: 500, along: 200, deep: 200, round: true })!;
    const flat = flattenRing(
      ring.map(([x, y, b = 0]) => [x, y, b] as const),
      0.01,
    );
    const near = flat.map(([x, y]) => [y, toSide === 1 ? 5000 - x : x] as const);
    expect(Math.min(...near.map(([y]) => y))).toBeCloseTo(300, 1);
    expect(Math.min(...near.map(([, x]) => x))).toBeCloseTo(500, 1);
    expect(Math.max(...near.map(([y]) => y))).toBeCloseTo(500, 1);
    const twice = flat.reduce((sum, [x, y], i) => {
      const [nx, ny] = flat[(i + 1) % flat.length]!;
      return sum + x * ny - nx * y;
    }, 0);
    expect(Math.abs(twice / 2) / (Math.PI * 100 * 100)).toBeCloseTo(1, 3);
  }
});

test("an arc by chord and rise stands off its chord by the rise, outward for a plus", () => {
  const bulge = bulgeOf(ROOM, 5000, 600)!;
  const flat = flattenRing(ROOM.map(([x, y], i) => [x, y, i === 0 ? bulge : 0] as const));
  expect(Math.min(...flat.map(([, y]) => y))).toBeCloseTo(-600, 6);
  expect(bulgeOf([...ROOM].reverse(), 5000, 600)).toBe(-bulge);
  expect(bulgeOf(ROOM, 5000, 2600)).toBeNull();
});

test("the grid lies inside, no point farther than the spacing from the next line, and is walked to and fro", () => {
  const hole: [number, number][] = [
    [1900, 900],
    [2200, 900],
    [2200, 1200],
    [1900, 1200],
  ];
  const grid = proposeGrid(ROOM, [hole], 1000);
  expect(grid.length).toBeGreaterThan(20);
  for (const at of grid) expect(insideRing(ROOM, at) && !insideRing(hole, at)).toBe(true);
  const xs = [...new Set(grid.map(([x]) => x))].sort((a, b) => a - b);
  expect([xs[0], xs[xs.length - 1]]).toEqual([50, 4950]);
  xs.slice(1).forEach((x, i) => {
    expect(x - xs[i]!).toBeLessThanOrEqual(1000);
  });
  expect(nextPoint(grid, [], 50)).toEqual([50, 50]);
  expect(nextPoint(grid, [[60, 40, 3]], 50)).toEqual(grid[1]);
  expect(
    nextPoint(
      grid,
      grid.map(([x, y]) => [x, y, 0] as const),
      50,
    ),
  ).toBeNull();
  expect(proposeGrid(ROOM, [], 0)).toEqual([]);
  expect(
    proposeGrid(
      [
        [0, 0],
        [1e6, 0],
        [1e6, 1e6],
      ],
      [],
      500,
    ),
  ).toEqual([]);
});

test("three digits are completed from the last reading, and where that is doubtful it says so", () => {
  expect(readStaff("342", 1318)).toEqual({ ok: true, mm: 1342, completed: true });
  expect(readStaff("012", 1980)).toEqual({ ok: true, mm: 2012, completed: true });
  expect(readStaff("1342", 900)).toEqual({ ok: true, mm: 1342, completed: false });
  expect(readStaff("342", null)).toEqual({ ok: true, mm: 342, completed: false });
  expect(readStaff("900", 1400)).toEqual({ ok: false, why: "ambiguous", readings: [900, 1900] });
  expect(readStaff("342,5", 1318)).toEqual({ ok: true, mm: 1342.5, completed: true });
  expect(readStaff("34-2", 1)).toEqual({ ok: false, why: "unclear", readings: [] });
});

test("the next tape is a side, then a diagonal inside; a tape taken again replaces the first", () => {
  const names = ["A", "B", "C", "D"];
  const sides: [string, string, number][] = [
    ["A", "B", 5000],
    ["C", "B", 3000],
    ["C", "D", 5000],
  ];
  expect(nextTie(names, ROOM, sides)).toEqual(["D", "A"]);
  const all = withTie(sides, "A", "D", 3000);
  expect(nextTie(names, ROOM, all)).toEqual(["A", "C"]);
  expect(withTie(all, "B", "A", 5001)[0]).toEqual(["A", "B", 5001]);
  expect(withTie(all, "B", "A", 5001)).toHaveLength(4);
  expect(tiesNeeded(4)).toBe(5);
  const both = withTie(withTie(all, "A", "C", 5831), "B", "D", 5831);
  expect(nextTie(names, ROOM, both)).toBeNull();
});

test("a dragged point keeps to its neighbours' lines, else to whole centimetres", () => {
  expect(snapPoint([4987, 1234], ROOM, 40)).toEqual({ at: [5000, 1230], held: ["line", "whole"] });
});
