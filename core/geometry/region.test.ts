import { describe, expect, it } from "vitest";
import { middleOf, trapezoids } from "./chords.ts";
import { regionsOf } from "./region.ts";
import { distanceToRing, isRectangle, rectangle, regionArea, regionHolds, ringArea, tidyRing } from "./ring.ts";

describe("rings and regions", () => {
  it("areas are signed by the sense of the ring and exact in whole micrometres", () => {
    const ring = rectangle(60_000_000, 60_000_000, 60_000_003, 60_000_007);
    expect(ringArea(ring)).toBe(21);
    expect(ringArea([...ring].reverse())).toBe(-21);
  });

  it("the union counts what is wound round forwards and takes the rest away", () => {
    const parts = regionsOf([rectangle(0, 0, 10_000, 10_000)], [rectangle(2000, 2000, 4000, 4000)]);
    expect(parts.length).toBe(1);
    expect(parts[0]!.holes.length).toBe(1);
    expect(regionArea(parts[0]!)).toBe(1e8 - 4e6);
    expect(regionHolds(parts[0]!, 3000, 3000)).toBe(false);
    expect(regionHolds(parts[0]!, 5000, 5000)).toBe(true);
    // A ring run backwards is nothing.
    expect(regionsOf([[...rectangle(0, 0, 10_000, 10_000)].reverse()], [])).toEqual([]);
  });

  it("tidies repeated and straight points and tells a rectangle", () => {
    const tidy = tidyRing([
      [0, 0],
      [5, 0],
      [5, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ]);
    expect(tidy.length).toBe(4);
    expect(isRectangle(tidy)).toBe(true);
    expect(
      isRectangle([
        [0, 0],
        [10, 0],
        [10, 10],
        [1, 10],
      ]),
    ).toBe(false);
    expect(distanceToRing(tidy, 5, -3)).toBe(3);
  });

  it("upright trapezoids make up the region", () => {
    const [part] = regionsOf(
      [
        [
          [0, 0],
          [9000, 0],
          [12_000, 5000],
          [4000, 9000],
        ],
      ],
      [
        [
          [4000, 2000],
          [6000, 2500],
          [5000, 4000],
        ],
      ],
    );
    let area = 0;
    for (const slab of trapezoids(part!)) {
      for (const t of slab) {
        area += ((t.u1 - t.u0) * (t.high0 - t.low0 + t.high1 - t.low1)) / 2;
        const [u, v] = middleOf(t, 0.5);
        expect(regionHolds(part!, u, v)).toBe(true);
      }
    }
    expect(area).toBeCloseTo(regionArea(part!), 3);
  });
});
