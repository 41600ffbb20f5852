import { describe, expect, it } from "vitest";
import { type MovedEdge, offsetRing } from "./offset.ts";
import { regionsOf } from "./region.ts";
import { boxOf, regionArea } from "./ring.ts";

const CHORD = 100;
function edges(points: number[][], gaps: number | number[]): MovedEdge[] {
  return points.map(([u, v, bulge], i) => ({
    u: u! * 1000,
    v: v! * 1000,
    bulge: bulge ?? 0,
    gap: (typeof gaps === "number" ? gaps : gaps[i]!) * 1000,
  }));
}
function field(points: number[][], gaps: number | number[]) {
  return regionsOf([offsetRing(edges(points, gaps), CHORD)], []);
}
const square = [
  [0, 0],
  [1000, 0],
  [1000, 1000],
  [0, 1000],
];

describe("a ring moved inward by each side's gap", () => {
  it("leaves no there-and-back spike for a clipper to stumble over, whichever way it is turned", () => {
    const points = [
      [0, 0, 0],
      [913.8, 0, 0.2],
      [913.8, 1249.8, 0],
      [0, 1249.8, 0.1],
    ];
    const half = points.map(([u, v, bulge]) => [-u!, -v!, bulge!]);
    const gaps = [0, 10, 10, 10];
    const area = (p: number[][]) => regionArea(field(p, gaps)[0]!);
    expect(Math.abs(area(points) - area(half))).toBeLessThan(1e5);
    const ring = offsetRing(edges(half, gaps), CHORD);
    ring.forEach((q, i) => {
      const p = ring[(i + ring.length - 1) % ring.length]!;
      const r = ring[(i + 1) % ring.length]!;
      const cross = (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0]);
      const dot = (q[0] - p[0]) * (r[0] - q[0]) + (q[1] - p[1]) * (r[1] - q[1]);
      expect(cross !== 0 || dot > 0, `point ${i}`).toBe(true);
    });
  });

  it("stays inside where a wide gap on an arc meets a narrow one nearly in line", () => {
    const points = [
      [0, 0, 0.038],
      [3496, 0, 0.994],
      [3496, 1325, 0.004],
      [0, 1325, 0.077],
      [0, 662.5, 0],
    ];
    const parts = field(points, [2, 14, 2, 14, 14]);
    const whole = field(points, 0);
    const outside = regionsOf(
      parts.map((part) => part.outer),
      whole.map((part) => part.outer),
    );
    expect(outside.reduce((sum, part) => sum + regionArea(part), 0)).toBeLessThan(1e8);
    expect(regionArea(parts[0]!)).toBeLessThan(regionArea(whole[0]!));
  });

  it("meets at the intersection of the moved lines, gaps by side", () => {
    const [part] = field(square, [10, 20, 30, 0]);
    expect(boxOf(part!.outer)).toEqual({ u0: 0, v0: 10_000, u1: 980_000, v1: 970_000 });
    expect(part!.outer.length).toBe(4);
  });

  it("drops what vanishes or turns over, in one direction or in both", () => {
    expect(field(square, 499).length).toBe(1);
    expect(field(square, 501)).toEqual([]);
    expect(field(square, [600, 10, 600, 10])).toEqual([]);
  });

  it("drops a short edge that is passed by its moved neighbours", () => {
    const bevelled = [
      [5, 0],
      [1000, 0],
      [1000, 1000],
      [0, 1000],
      [0, 5],
    ];
    const [part] = field(bevelled, 10);
    expect(part!.outer.length).toBe(4);
    expect(regionArea(part!)).toBe(980_000 * 980_000);
  });

  it("falls into parts where a neck is narrower than the gaps", () => {
    const dumbbell = [
      [0, 0],
      [400, 0],
      [400, 190],
      [600, 190],
      [600, 0],
      [1000, 0],
      [1000, 400],
      [600, 400],
      [600, 210],
      [400, 210],
      [400, 400],
      [0, 400],
    ];
    expect(field(dumbbell, 5).length).toBe(1);
    expect(field(dumbbell, 15).length).toBe(2);
  });

  it("keeps the mitre at a square reflex corner and cuts a sharp one square at twice the larger gap", () => {
    const ell = [
      [0, 0],
      [1000, 0],
      [1000, 500],
      [500, 500],
      [500, 1000],
      [0, 1000],
    ];
    const [part] = field(ell, 10);
    expect(part!.outer).toContainEqual([490_000, 490_000]);
    // A thin spike of wall into the field: its mitre would run far beyond 2 x 10.
    const spiked = [
      [0, 0],
      [1000, 0],
      [1000, 1000],
      [510, 1000],
      [500, 500],
      [490, 1000],
      [0, 1000],
    ];
    const [cut] = field(spiked, 10);
    const lowest = Math.min(...cut!.outer.filter(([u]) => u > 400_000 && u < 600_000).map(([, v]) => v));
    expect(lowest).toBe(480_000);
  });

  it("steps square at a vertex where two sides in line have different gaps", () => {
    const inLine = [
      [0, 0],
      [500, 0],
      [1000, 0],
      [1000, 1000],
      [0, 1000],
    ];
    const [part] = field(inLine, [10, 30, 10, 10, 10]);
    expect(part!.outer).toContainEqual([500_000, 10_000]);
    expect(part!.outer).toContainEqual([500_000, 30_000]);
  });

  it("moves arcs concentrically, inward and outward, and drops one whose radius vanishes", () => {
    // A full circle of radius 1000 as two arcs of bulge 1.
    const disc = [
      [1000, 0, 1],
      [-1000, 0, 1],
    ];
    const [part] = field(disc, 100);
    for (const [u, v] of part!.outer) expect(Math.abs(Math.sqrt(u * u + v * v) - 900_000)).toBeLessThan(2);
    const hole = offsetRing(
      edges(
        [
          [1000, 0, -1],
          [-1000, 0, -1],
        ],
        100,
      ),
      CHORD,
    );
    for (const [u, v] of hole) expect(Math.abs(Math.sqrt(u * u + v * v) - 1_100_000)).toBeLessThan(2);
    const rounded = [
      [5, 0],
      [1000, 0],
      [1000, 1000],
      [0, 1000],
      [0, 5, 0.41421356237309503],
    ];
    const [dropped] = field(rounded, 10);
    expect(regionArea(dropped!) / 1e12).toBeCloseTo(0.98 * 0.98, 7);
  });

  it("keeps a wider gap beside a reflex corner nearly in line, whether its side is long or short", () => {
    // The moved lines meet 60 mm along the wide side, behind its start: nothing sticks out that could be cut square.
    const bent = (length: number) => [
      [0, 0],
      [1000, 0],
      [1000 + length, -length / 10],
      [1000 + length, 1000],
      [0, 1000],
    ];
    for (const length of [900, 20]) {
      const [part] = field(bent(length), [0, 6, 0, 0, 0]);
      const whole = 1_000_000 + length * 1000 + (length * length) / 20;
      // The moved line meets the narrow side's line where it can; a side too short for that keeps its gap to its end.
      const taken = length > 60 ? 6 * length * Math.sqrt(1.01) - (6 * 60) / 2 : 6 * length * Math.sqrt(1.01);
      expect(Math.abs(regionArea(part!) / 1e6 - (whole - taken))).toBeLessThan(40);
    }
  });
});
