import { describe, expect, it } from "vitest";
import { chance } from "../../fixtures/random.ts";
import type { Region, Ring } from "./frame.ts";
import { overlapArea, regionsOf } from "./region.ts";
import { boxOf, rectangle, regionArea, ringArea } from "./ring.ts";
import { clipSlabs, clipStrips, type Strip } from "./strips.ts";

/** A star-shaped ring with coarse levels, so that vertices and edges often lie exactly on a strip's line. */
function star(seed: number, size: number): Ring {
  const c = chance(seed);
  const n = c.int(3, 14);
  const out: [number, number][] = [];
  for (let i = 0; i < n; i++) {
    const r = c.int(size / 4, size);
    // Directions of the points of a square, in order round it: no trigonometry.
    const t = (i * 8 * size) / n;
    const side = Math.floor(t / (2 * size));
    const along = (t % (2 * size)) - size;
    const [x, y] =
      side === 0 ? [size, along] : side === 1 ? [-along, size] : side === 2 ? [-size, -along] : [along, -size];
    out.push([Math.round((x * r) / size / 1000) * 1000, Math.round((y * r) / size / 1000) * 1000]);
  }
  return out;
}

describe("regions cut by strips", () => {
  it("agree with a general clipper in area, on 600 random regions with holes", () => {
    let parts = 0;
    for (let seed = 0; seed < 600; seed++) {
      const holes = [star(seed + 5000, 30_000), star(seed + 9000, 12_000)].map((ring, i) =>
        ring.map(([u, v]) => [u + (i - 0.5) * 60_000, v + 5000] as const),
      );
      const field = regionsOf([star(seed, 100_000)], holes);
      const c = chance(seed + 77);
      const pitch = c.int(5, 40) * 1000;
      const strips: Strip[] = [];
      for (let v = -110_000; v < 110_000; v += pitch + 2000) strips.push([v, v + pitch]);
      const rings = field.flatMap((r) => [r.outer, ...r.holes]);
      const cut = clipStrips(field, strips);
      cut.forEach((regions, k) => {
        const [low, high] = strips[k]!;
        let area = 0;
        for (const region of regions) {
          parts++;
          expect(ringArea(region.outer)).toBeGreaterThan(0);
          const box = boxOf(region.outer);
          expect(box.v0 >= low && box.v1 <= high).toBe(true);
          area += regionArea(region);
        }
        const opinion = overlapArea(rings, [rectangle(-200_000, low, 200_000, high)]);
        // Crossings are rounded to 1 um by both: some um over the length of the cut lines.
        expect(Math.abs(area - opinion)).toBeLessThan(1e6);
      });
    }
    expect(parts).toBeGreaterThan(5000);
  });

  it("gives whole rectangles back as they are, and keeps a hole inside a strip a hole", () => {
    const field: Region[] = [
      { outer: rectangle(0, 0, 1000, 400), holes: [[...rectangle(300, 150, 500, 250)].reverse()] },
    ];
    const [low, middle] = clipStrips(field, [
      [0, 100],
      [105, 300],
    ]);
    expect(low).toEqual([
      {
        outer: expect.arrayContaining([
          [0, 0],
          [1000, 0],
          [1000, 100],
          [0, 100],
        ]),
        holes: [],
      },
    ]);
    expect(middle!.length).toBe(1);
    expect(middle![0]!.holes.length).toBe(1);
    expect(regionArea(middle![0]!)).toBe(1000 * 195 - 200 * 100);
  });

  it("opens a hole that a strip's line crosses, and parts a strip that it fills", () => {
    const field: Region[] = [
      { outer: rectangle(0, 0, 1000, 400), holes: [[...rectangle(300, 150, 500, 250)].reverse()] },
    ];
    const [opened, parted] = clipStrips(field, [
      [100, 200],
      [210, 240],
    ]);
    expect(opened!.map((r) => [r.holes.length, regionArea(r)])).toEqual([[0, 1000 * 100 - 200 * 50]]);
    expect(parted!.map((r) => boxOf(r.outer))).toEqual([
      { u0: 0, v0: 210, u1: 300, v1: 240 },
      { u0: 500, v0: 210, u1: 1000, v1: 240 },
    ]);
  });

  it("cuts upright slabs as it cuts strips", () => {
    const field: Region[] = [
      {
        outer: [
          [0, 0],
          [900, 0],
          [600, 300],
          [0, 300],
        ],
        holes: [],
      },
    ];
    const [left, right] = clipSlabs(field, [
      [0, 500],
      [510, 900],
    ]);
    expect(regionArea(left![0]!)).toBe(500 * 300);
    expect(regionArea(right![0]!)).toBe(90 * 300 + (300 * 300) / 2);
  });
});
