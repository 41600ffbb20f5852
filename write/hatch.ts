import { directionOf } from "../core/geometry/direction.ts";
import type { Pt } from "../papers/sheet.ts";

/** Most lines one hatch is drawn with; a larger area is hatched wider. */
const MOST_LINES = 4000;

/**
 * Parallel lines inside rings, even-odd, at an angle and spacing in the rings' own unit. Lines lie on one lattice
 * through the origin, so that neighbouring areas hatch as one. Scanline; cost: edges + crossings of each line.
 */
export function hatchLines(rings: readonly (readonly Pt[])[], deg: number, spacing: number): [Pt, Pt][] {
  const [cos, sin] = directionOf(deg);
  const turned = rings.map((ring) => ring.map(([x, y]): Pt => [x * cos + y * sin, y * cos - x * sin]));
  let low = Infinity;
  let high = -Infinity;
  for (const ring of turned) {
    for (const [, y] of ring) {
      if (y < low) low = y;
      if (y > high) high = y;
    }
  }
  if (!(high > low) || !(spacing > 0)) return [];
  const step = spacing * Math.max(1, Math.ceil((high - low) / spacing / MOST_LINES));
  const out: [Pt, Pt][] = [];
  const back = (x: number, y: number): Pt => [x * cos - y * sin, x * sin + y * cos];
  for (let k = Math.ceil(low / step); k * step < high; k++) {
    const y = k * step;
    const crossings: number[] = [];
    for (const ring of turned) {
      for (let i = 0; i < ring.length; i++) {
        const [x0, y0] = ring[i]!;
        const [x1, y1] = ring[(i + 1) % ring.length]!;
        if (y0 <= y !== y1 <= y) crossings.push(x0 + ((y - y0) * (x1 - x0)) / (y1 - y0));
      }
    }
    crossings.sort((a, b) => a - b);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      if (crossings[i + 1]! > crossings[i]!) out.push([back(crossings[i]!, y), back(crossings[i + 1]!, y)]);
    }
  }
  return out;
}
