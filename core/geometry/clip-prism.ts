/** A plane polygon whose corners carry a third figure, straight between them (a height over it). */
export type Polygon = readonly (readonly [x: number, y: number, h: number])[];

/** The part of a convex polygon where coordinate `axis` (0 x, 1 y, 2 height) is above `bound` (way 1) or below (way -1). */
export function clipAbove(polygon: Polygon, axis: 0 | 1 | 2, bound: number, way: 1 | -1): Polygon {
  return clipBy(polygon, (p) => (p[axis] - bound) * way);
}

/** The part of a convex polygon where `side`, straight over the plane, is not negative. */
export function clipBy(polygon: Polygon, side: (p: readonly [number, number, number]) => number): Polygon {
  const out: [number, number, number][] = [];
  for (let i = 0; i < polygon.length; i++) {
    const p = polygon[i]!;
    const q = polygon[(i + 1) % polygon.length]!;
    const dp = side(p);
    const dq = side(q);
    if (dp >= 0) out.push([p[0], p[1], p[2]]);
    if (dp >= 0 !== dq >= 0) {
      const f = dp / (dp - dq);
      out.push([p[0] + f * (q[0] - p[0]), p[1] + f * (q[1] - p[1]), p[2] + f * (q[2] - p[2])]);
    }
  }
  return out;
}

/** Integral of the height over a convex polygon, counter-clockwise positive: a fan of prisms. */
export function polygonVolume(p: Polygon): number {
  let volume = 0;
  for (let i = 2; i < p.length; i++) {
    const [ax, ay, ah] = p[0]!;
    const [bx, by, bh] = p[i - 1]!;
    const [cx, cy, ch] = p[i]!;
    volume += (((bx - ax) * (cy - ay) - (cx - ax) * (by - ay)) * (ah + bh + ch)) / 6;
  }
  return volume;
}
