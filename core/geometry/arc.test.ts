import { describe, expect, test } from "vitest";
import { flattenAround } from "./arc.ts";

describe("a ring drawn round its arcs", () => {
  test("a circle lies wholly inside, by at most the chord error", () => {
    for (const bulges of [
      [1, 1],
      [Math.SQRT2 - 1, Math.SQRT2 - 1, Math.SQRT2 - 1, Math.SQRT2 - 1],
    ]) {
      const corners =
        bulges.length === 2
          ? [
              [-500, 0],
              [500, 0],
            ]
          : [
              [-500, 0],
              [0, -500],
              [500, 0],
              [0, 500],
            ];
      const ring = flattenAround(
        corners.map(([x, y], i) => [x!, y!, bulges[i]!] as const),
        0.2,
      );
      for (let i = 0; i < ring.length; i++) {
        const [ax, ay] = ring[i]!;
        const [bx, by] = ring[(i + 1) % ring.length]!;
        const away = Math.abs(ax * by - ay * bx) / Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
        expect(away).toBeGreaterThan(500 - 1e-6);
        expect(Math.sqrt(ax * ax + ay * ay)).toBeLessThan(500.2);
      }
    }
  });

  test("a shallow arc of one part is covered too, and an inward one keeps its chords", () => {
    const ring = flattenAround(
      [
        [0, 0, 0.0005],
        [400, 0, 0],
        [400, 300, -0.0005],
        [0, 300, 0],
      ],
      0.2,
    );
    expect(ring).toHaveLength(5);
    expect(ring[1]![1]).toBeLessThan(-0.1);
    expect(ring.slice(2)).toEqual([
      [400, 0],
      [400, 300],
      [0, 300],
    ]);
  });
});
