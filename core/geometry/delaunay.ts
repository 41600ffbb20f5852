import Constrainautor from "@kninnug/constrainautor";
import Delaunator from "delaunator";

/** A triangulation of points in the plane. Corners counter-clockwise (y up), three a triangle. */
export interface Triangulation {
  corners: Int32Array;
  /** Half-edge e runs from corners[e] to the next corner of its triangle; its twin, or -1 at the rim. */
  twins: Int32Array;
  /** Wanted edges that could not be forced in because they cross one another; 0 for sound input. */
  failed: number;
}

/**
 * Delaunay triangulation of `xy` ([x0, y0, x1, y1, ...], no point twice) with `edges` (pairs of indices) forced in.
 * Predicates are exact (robust-predicates under delaunator), O(n log n). Points on one line give no triangle.
 * Forced edges: Sloan, "A fast algorithm for generating constrained Delaunay triangulations", 1993.
 */
export function triangulate(xy: Float64Array, edges: readonly (readonly [number, number])[] = []): Triangulation {
  if (xy.length < 6) return { corners: new Int32Array(0), twins: new Int32Array(0), failed: 0 };
  const del = new Delaunator(xy);
  const forced = edges.length > 0 && del.triangles.length > 0 ? new Constrainautor(del) : null;
  let failed = 0;
  for (const [a, b] of edges) {
    try {
      if (a !== b) forced?.constrainOne(a, b);
    } catch (refusal) {
      // The package refuses crossing edges by plain errors; anything else is a fault of ours.
      if (refusal instanceof TypeError) throw refusal;
      failed++;
    }
  }
  return { ...counterClockwise(xy, del.triangles, del.halfedges), failed };
}

export function nextEdge(e: number): number {
  return e % 3 === 2 ? e - 2 : e + 1;
}

export function previousEdge(e: number): number {
  return e % 3 === 0 ? e + 2 : e - 1;
}

/** The library turns its triangles as on a screen (y down); ours turn as on paper. */
function counterClockwise(xy: Float64Array, triangles: Uint32Array, halfedges: Int32Array) {
  const corners = new Int32Array(triangles.length);
  const twins = new Int32Array(triangles.length);
  const turned = (e: number) => (e < 0 ? -1 : e - (e % 3) + (2 - (e % 3)));
  const flip = triangles.length > 0 && orientation(xy, triangles) < 0;
  for (let e = 0; e < triangles.length; e++) {
    if (!flip) {
      corners[e] = triangles[e]!;
      twins[e] = halfedges[e]!;
      continue;
    }
    // (a, b, c) becomes (a, c, b): the edge c-a, read backwards, now starts at a.
    const base = e - (e % 3);
    corners[e] = triangles[base + ((3 - (e % 3)) % 3)]!;
    twins[e] = turned(halfedges[turned(e)]!);
  }
  return { corners, twins };
}

/** Sign of the greatest triangle's area: one large triangle settles the turning of all. */
function orientation(xy: Float64Array, t: Uint32Array): number {
  let best = 0;
  for (let i = 0; i < t.length; i += 3) {
    const a = 2 * t[i]!;
    const b = 2 * t[i + 1]!;
    const c = 2 * t[i + 2]!;
    const area = (xy[b]! - xy[a]!) * (xy[c + 1]! - xy[a + 1]!) - (xy[c]! - xy[a]!) * (xy[b + 1]! - xy[a + 1]!);
    if (Math.abs(area) > Math.abs(best)) best = area;
  }
  return best;
}
