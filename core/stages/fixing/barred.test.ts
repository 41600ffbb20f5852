import { describe, expect, it } from "vitest";
import type { Uv } from "../../geometry/frame.ts";
import { freeSlabEdges, insideAlong, nearAlong } from "./barred.ts";
import { box, sampleTerrace } from "./samples.ts";

describe("barred stretches of a line", () => {
  it("are all places nearer than the reach to a segment, and no others", () => {
    const segments: [Uv, Uv][] = [
      [
        [0, 0],
        [1000, 0],
      ],
      [
        [0, 0],
        [700, 900],
      ],
      [
        [300, -500],
        [300, 500],
      ],
      [
        [50, 50],
        [50, 50],
      ],
    ];
    for (const [p, q] of segments) {
      for (const reach of [0, 60, 250]) {
        for (const v of [-200, -60, 0.5, 130, 480]) {
          const near = nearAlong(p, q, reach, v);
          for (let u = -400; u <= 1400; u += 7) {
            const away = sampled(p, q, u, v);
            if (near && u > near[0] + 2 && u < near[1] - 2) expect(away).toBeLessThan(reach + 1);
            if (!near || u < near[0] - 2 || u > near[1] + 2) expect(away).toBeGreaterThan(reach - 1);
          }
        }
      }
    }
  });

  it("are what lies inside a ring", () => {
    const ring: Uv[] = [
      [0, 0],
      [100, 0],
      [100, 100],
      [60, 100],
      [60, 40],
      [40, 40],
      [40, 100],
      [0, 100],
    ];
    expect(insideAlong(ring, 70)).toEqual([
      [0, 40],
      [60, 100],
    ]);
    expect(insideAlong(ring, 20)).toEqual([[0, 100]]);
    expect(insideAlong(ring, 200)).toEqual([]);
  });

  it("leave free only the slab's edge that no wall runs along, part by part", () => {
    const { setout } = sampleTerrace([{ boards: [1200] }]);
    const site = {
      ...setout.site,
      outline: [
        [0, 0],
        [1000, 100],
        [1000, 1000],
        [0, 1000],
      ] as Uv[],
      edges: (["wall", "open", "open", "open"] as const).map((kind, source) => ({ kind, source, gapUm: 0 })),
      slab: box(0, 0, 1000, 1000),
    };
    // the wall leaves the slab's lower edge by a tenth: after 400 it stands 40 / sqrt(1.01) off
    const free = freeSlabEdges(site, 40 / Math.sqrt(1.01));
    expect(free.length).toBe(4);
    expect(free[0]![0][0]).toBeCloseTo(400, 6);
    expect(free[0]![1]).toEqual([1000, 0]);
  });
});

/** Distance from a place to a segment, by looking at 2,000 places of it. */
function sampled(p: Uv, q: Uv, u: number, v: number): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= 2000; i++) {
    const du = p[0] + ((q[0] - p[0]) * i) / 2000 - u;
    const dv = p[1] + ((q[1] - p[1]) * i) / 2000 - v;
    best = Math.min(best, du * du + dv * dv);
  }
  return Math.sqrt(best);
}
