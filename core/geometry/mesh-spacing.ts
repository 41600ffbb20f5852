import { nextEdge, previousEdge, type Triangulation, triangulate } from "./delaunay.ts";

interface Surface {
  x: Float64Array;
  y: Float64Array;
  /** Index of the reading a point comes from, or -1. */
  reading: Int32Array;
  corners: Int32Array;
  twins: Int32Array;
}

/**
 * Largest distance from a place of the base to the nearest reading that counts. The greatest lies at a Voronoi corner
 * (the circumcentre of a triangle of readings) inside the base, or on the edge; the edge is looked at where it has
 * nodes, which lie no further apart than the readings do.
 */
export function widestGapToReading(mesh: Surface): number {
  const own: number[] = [];
  for (let i = 0; i < mesh.x.length; i++) if (mesh.reading[i]! >= 0) own.push(i);
  const xy = new Float64Array(own.length * 2);
  for (const [k, i] of own.entries()) {
    xy[2 * k] = mesh.x[i]!;
    xy[2 * k + 1] = mesh.y[i]!;
  }
  const raw = triangulate(xy);
  const index = neighbours(raw, own.length);
  let best = 0;
  for (let t = 0; t < raw.corners.length; t += 3) {
    const c = circumcentre(xy, raw.corners[t]!, raw.corners[t + 1]!, raw.corners[t + 2]!);
    if (c && c[2] > best && covers(mesh, c[0], c[1])) best = c[2];
  }
  let near = 0;
  for (let i = 0; i < mesh.x.length; i++) {
    if (mesh.reading[i]! >= 0) continue;
    near = nearestFrom(index, xy, near, mesh.x[i]!, mesh.y[i]!);
    const dx = xy[2 * near]! - mesh.x[i]!;
    const dy = xy[2 * near + 1]! - mesh.y[i]!;
    best = Math.max(best, dx * dx + dy * dy);
  }
  return Math.sqrt(best);
}

function circumcentre(xy: Float64Array, a: number, b: number, c: number): [number, number, number] | null {
  const ax = xy[2 * a]!;
  const ay = xy[2 * a + 1]!;
  const bx = xy[2 * b]! - ax;
  const by = xy[2 * b + 1]! - ay;
  const cx = xy[2 * c]! - ax;
  const cy = xy[2 * c + 1]! - ay;
  const d = 2 * (bx * cy - by * cx);
  if (d === 0) return null;
  const b2 = bx * bx + by * by;
  const c2 = cx * cx + cy * cy;
  const ux = (cy * b2 - by * c2) / d;
  const uy = (bx * c2 - cx * b2) / d;
  return [ax + ux, ay + uy, ux * ux + uy * uy];
}

function covers(mesh: Surface, x: number, y: number): boolean {
  let inside = false;
  for (let e = 0; e < mesh.corners.length; e++) {
    if (mesh.twins[e] !== -1) continue;
    const a = mesh.corners[e]!;
    const b = mesh.corners[nextEdge(e)]!;
    const ya = mesh.y[a]!;
    const yb = mesh.y[b]!;
    if (ya > y !== yb > y && x < mesh.x[a]! + ((y - ya) / (yb - ya)) * (mesh.x[b]! - mesh.x[a]!)) inside = !inside;
  }
  return inside;
}

/** A half-edge leaving each point; at the hull, the one from which a turn meets every neighbour. */
function neighbours(raw: Triangulation, n: number): { from: Int32Array; raw: Triangulation } {
  const from = new Int32Array(n).fill(-1);
  for (let e = 0; e < raw.corners.length; e++) {
    const p = raw.corners[e]!;
    if (from[p] === -1 || raw.twins[e] === -1) from[p] = e;
  }
  return { from, raw };
}

/** Nearest point by walking to ever nearer Delaunay neighbours: exact on a Delaunay triangulation. */
function nearestFrom(
  index: { from: Int32Array; raw: Triangulation },
  xy: Float64Array,
  start: number,
  x: number,
  y: number,
): number {
  const distance = (i: number) => (xy[2 * i]! - x) * (xy[2 * i]! - x) + (xy[2 * i + 1]! - y) * (xy[2 * i + 1]! - y);
  const { corners, twins } = index.raw;
  let at = start;
  let best = distance(at);
  for (let step = 0; step < xy.length; step++) {
    let nearer = at;
    const first = index.from[at]!;
    let e = first;
    for (let turn = 0; e >= 0 && turn < xy.length; turn++) {
      for (const p of [corners[nextEdge(e)]!, corners[previousEdge(e)]!]) {
        const d = distance(p);
        if (d < best) {
          best = d;
          nearer = p;
        }
      }
      e = twins[previousEdge(e)]!;
      if (e === first) break;
    }
    if (nearer === at) return at;
    at = nearer;
  }
  return at;
}
