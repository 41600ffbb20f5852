import type { Region, Uv } from "./frame.ts";

/**
 * A piece of a region between two neighbouring levels of u: straight below and above. v at both ends; whole units at u,
 * v unrounded. `below` and `above` are the edges' end points (towards greater u).
 */
export interface Trapezoid {
  u0: number;
  u1: number;
  low0: number;
  low1: number;
  high0: number;
  high1: number;
  below: readonly [Uv, Uv];
  above: readonly [Uv, Uv];
}

/**
 * Cuts a region into upright trapezoids at every level of u where a vertex lies; by slab, then upward.
 * Cost: slabs x edges alive in them.
 */
export function trapezoids(region: Region): Trapezoid[][] {
  const edges: (readonly [Uv, Uv])[] = [];
  const levels = new Set<number>();
  for (const ring of [region.outer, ...region.holes]) {
    for (let i = 0; i < ring.length; i++) {
      const a = ring[i]!;
      const b = ring[(i + 1) % ring.length]!;
      levels.add(a[0]);
      if (a[0] < b[0]) edges.push([a, b]);
      else if (a[0] > b[0]) edges.push([b, a]);
    }
  }
  edges.sort((p, q) => p[0][0] - q[0][0]);
  const us = [...levels].sort((a, b) => a - b);
  const out: Trapezoid[][] = [];
  let alive: (readonly [Uv, Uv])[] = [];
  let next = 0;
  for (let k = 0; k + 1 < us.length; k++) {
    const u0 = us[k]!;
    const u1 = us[k + 1]!;
    alive = alive.filter((e) => e[1][0] > u0);
    while (next < edges.length && edges[next]![0][0] <= u0) alive.push(edges[next++]!);
    const mid = (u0 + u1) / 2;
    const sorted = alive.map((e) => ({ e, v: levelAt(e, mid) })).sort((a, b) => a.v - b.v);
    const slab: Trapezoid[] = [];
    for (let i = 0; i + 1 < sorted.length; i += 2) {
      const below = sorted[i]!.e;
      const above = sorted[i + 1]!.e;
      slab.push({
        u0,
        u1,
        low0: levelAt(below, u0),
        low1: levelAt(below, u1),
        high0: levelAt(above, u0),
        high1: levelAt(above, u1),
        below,
        above,
      });
    }
    out.push(slab);
  }
  return out;
}

/** v of an edge at a level of u. */
export function levelAt(edge: readonly [Uv, Uv], u: number): number {
  const [a, b] = edge;
  if (u === a[0] || a[0] === b[0]) return a[1];
  if (u === b[0]) return b[1];
  return a[1] + ((b[1] - a[1]) * (u - a[0])) / (b[0] - a[0]);
}

/** A point inside a trapezoid at a share (0 to 1) of its extent. */
export function middleOf(t: Trapezoid, share: number): [number, number] {
  const low = t.low0 + (t.low1 - t.low0) * share;
  const high = t.high0 + (t.high1 - t.high0) * share;
  return [t.u0 + (t.u1 - t.u0) * share, (low + high) / 2];
}
