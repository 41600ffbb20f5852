import type { Region, Ring, Uv } from "./frame.ts";

/** Smallest box round points, in their own unit. */
export interface Box {
  u0: number;
  v0: number;
  u1: number;
  v1: number;
}

/**
 * Area of a ring, positive where it runs counter-clockwise. The shoelace sum runs about the ring's first point, so that
 * whole micrometres stay exact for rings up to 67 m across and good to 1e-15 of the area beyond.
 */
export function ringArea(ring: Ring): number {
  if (ring.length < 3) return 0;
  const [ou, ov] = ring[0]!;
  let twice = 0;
  for (let i = 1; i + 1 < ring.length; i++) {
    const [au, av] = ring[i]!;
    const [bu, bv] = ring[i + 1]!;
    twice += (au - ou) * (bv - ov) - (bu - ou) * (av - ov);
  }
  return twice / 2;
}

/** Area of a region: its outer ring less its holes (holes run clockwise, so theirs is negative). */
export function regionArea(region: Region): number {
  let area = ringArea(region.outer);
  for (const hole of region.holes) area -= Math.abs(ringArea(hole));
  return area;
}

/** The box round a ring. */
export function boxOf(ring: Ring): Box {
  let u0 = Number.POSITIVE_INFINITY;
  let v0 = Number.POSITIVE_INFINITY;
  let u1 = Number.NEGATIVE_INFINITY;
  let v1 = Number.NEGATIVE_INFINITY;
  for (const [u, v] of ring) {
    if (u < u0) u0 = u;
    if (u > u1) u1 = u;
    if (v < v0) v0 = v;
    if (v > v1) v1 = v;
  }
  return { u0, v0, u1, v1 };
}

/** A counter-clockwise rectangle. */
export function rectangle(u0: number, v0: number, u1: number, v1: number): Ring {
  return [
    [u0, v0],
    [u1, v0],
    [u1, v1],
    [u0, v1],
  ];
}

/** The ring without repeated points and without points inside a straight run (exact, no tolerance). May become empty. */
export function tidyRing(ring: Ring): Ring {
  let points = ring.filter((p, i) => {
    const q = ring[(i + 1) % ring.length]!;
    return p[0] !== q[0] || p[1] !== q[1];
  });
  for (let changed = true; changed && points.length >= 3; ) {
    const n = points.length;
    const kept: Uv[] = [];
    for (let i = 0; i < n; i++) {
      const p = kept.length > 0 ? kept[kept.length - 1]! : points[n - 1]!;
      const q = points[i]!;
      const r = points[(i + 1) % n]!;
      const cross = (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0]);
      if (cross !== 0) kept.push(q);
    }
    changed = kept.length < n;
    points = kept;
  }
  return points.length >= 3 ? points : [];
}

/** True where the ring is exactly the rectangle of its box, as four points. */
export function isRectangle(ring: Ring): boolean {
  if (ring.length !== 4) return false;
  const [a, b, c, d] = ring as [Uv, Uv, Uv, Uv];
  const upright = a[0] === b[0] && b[1] === c[1] && c[0] === d[0] && d[1] === a[1];
  const lying = a[1] === b[1] && b[0] === c[0] && c[1] === d[1] && d[0] === a[0];
  return upright || lying;
}

/** Whether a point lies inside a ring (even-odd; a point on the edge may go either way). */
export function ringHolds(ring: Ring, u: number, v: number): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ui, vi] = ring[i]!;
    const [uj, vj] = ring[j]!;
    if (vi > v !== vj > v && u < ((uj - ui) * (v - vi)) / (vj - vi) + ui) inside = !inside;
  }
  return inside;
}

/** Whether a point lies in a region. */
export function regionHolds(region: Region, u: number, v: number): boolean {
  return ringHolds(region.outer, u, v) && !region.holes.some((hole) => ringHolds(hole, u, v));
}

/** Distance of a point from a closed ring's line. */
export function distanceToRing(ring: Ring, u: number, v: number): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < ring.length; i++) {
    const [au, av] = ring[i]!;
    const [bu, bv] = ring[(i + 1) % ring.length]!;
    const du = bu - au;
    const dv = bv - av;
    const len2 = du * du + dv * dv;
    let t = len2 === 0 ? 0 : ((u - au) * du + (v - av) * dv) / len2;
    t = t < 0 ? 0 : Math.min(t, 1);
    const eu = u - au - t * du;
    const ev = v - av - t * dv;
    const d2 = eu * eu + ev * ev;
    if (d2 < best) best = d2;
  }
  return Math.sqrt(best);
}

/** A region moved by whole micrometres. */
export function moveRing(ring: Ring, du: number, dv: number): Ring {
  return ring.map(([u, v]) => [u + du, v + dv] as const);
}
