/** Small plane geometry for drawings: plain millimetres, no exactness promised or needed. */
import { flattenEdge } from "../../core/geometry/arc.ts";
import type { Vertex } from "../../core/job/job.ts";
import type { Pt } from "../sheet.ts";

export interface Bounds {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

export function boundsOf(points: readonly Pt[]): Bounds {
  const out = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  for (const [x, y] of points) {
    if (x < out.x0) out.x0 = x;
    if (y < out.y0) out.y0 = y;
    if (x > out.x1) out.x1 = x;
    if (y > out.y1) out.y1 = y;
  }
  return out;
}

export function distance(a: Pt, b: Pt): number {
  return Math.sqrt((b[0] - a[0]) * (b[0] - a[0]) + (b[1] - a[1]) * (b[1] - a[1]));
}

export function between(a: Pt, b: Pt, share: number): Pt {
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
}

/** Unit vector from a to b; along x where they are one point. */
export function unit(a: Pt, b: Pt): Pt {
  const length = distance(a, b);
  return length === 0 ? [1, 0] : [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

export function moved(at: Pt, along: Pt, by: number): Pt {
  return [at[0] + along[0] * by, at[1] + along[1] * by];
}

/** Even-odd. */
export function inside(ring: readonly Pt[], at: Pt): boolean {
  let within = false;
  for (let i = 0; i < ring.length; i++) {
    const [x0, y0] = ring[i]!;
    const [x1, y1] = ring[(i + 1) % ring.length]!;
    if (y0 <= at[1] !== y1 <= at[1] && at[0] < x0 + ((at[1] - y0) * (x1 - x0)) / (y1 - y0)) within = !within;
  }
  return within;
}

/** True where the open segment crosses an edge of the ring (touching at its ends does not count). */
export function crosses(ring: readonly Pt[], a: Pt, b: Pt): boolean {
  for (let i = 0; i < ring.length; i++) {
    const c = ring[i]!;
    const d = ring[(i + 1) % ring.length]!;
    if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return true;
  }
  return false;
}

function side(a: Pt, b: Pt, c: Pt): number {
  const cross = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  return cross > 1e-6 ? 1 : cross < -1e-6 ? -1 : 0;
}

/** One edge of a ring of vertices as points, arcs flattened, from its first to its last point. */
export function edgePoints(ring: readonly Vertex[], index: number, chordMm = 2): Pt[] {
  const [x0, y0, bulge] = ring[index]!;
  const [x1, y1] = ring[(index + 1) % ring.length]!;
  const out: [number, number][] = [[x0, y0]];
  flattenEdge(x0, y0, x1, y1, bulge, out, chordMm);
  return out;
}

export function ringPoints(ring: readonly Vertex[], chordMm = 2): Pt[] {
  return ring.flatMap((_, i) => edgePoints(ring, i, chordMm).slice(0, -1));
}
