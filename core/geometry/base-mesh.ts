import { type BoundaryLoop, insideLoops, loopsOf, type MeshSite, onLoops } from "./base-loops.ts";
import { nextEdge, type Triangulation, triangulate } from "./delaunay.ts";
import { addHullEdges, CLOSE_MM, type Level, mergePlaces, Nodes, nodeLoop, SAME_MM } from "./mesh-nodes.ts";
import { widestGapToReading } from "./mesh-spacing.ts";
import { fitPlane } from "./plane.ts";

/** The base as a triangulated surface inside the outline and outside the cut-outs. Site frame, mm. */
export interface BaseMesh {
  x: Float64Array;
  y: Float64Array;
  z: Float64Array;
  /** Index of the reading a point comes from, or -1 for points put on the edge by interpolation. */
  reading: Int32Array;
  corners: Int32Array;
  twins: Int32Array;
  /** 1 where the triangle lies within the hull of the readings, 0 where its height is carried on beyond it. */
  measured: Uint8Array;
  /** For a half-edge on the rim: side of the outline (>= 0), or -2 - index of the cut-out; -1 inside. */
  rim: Int32Array;
  /** Largest distance between a place of the base and its nearest reading. */
  spacingMm: number;
}

/**
 * Triangulates readings within the site. Where readings end before the edge, heights are carried on as the
 * least-squares plane plus the nearest reading's residual, and those triangles are marked as not measured: they
 * shape water and volumes, never a verdict on evenness. Readings outside the outline give heights along the edge
 * (the crossing points of the edge with the triangulation of all readings) and are otherwise left out.
 * Null where the readings that count do not span a plane. O(n log n + n E) for n readings and E edges.
 */
export function meshBase(site: MeshSite, levels: readonly Level[]): BaseMesh | null {
  const readings = mergePlaces(levels);
  const loops = loopsOf(site);
  const inside = readings.filter((r) => insideLoops(loops, r.x, r.y) || onLoops(loops, r.x, r.y, SAME_MM));
  const plane = fitPlane(inside.map((r) => [r.x, r.y, r.z]));
  if (!plane) return null;
  const xy = new Float64Array(readings.length * 2);
  for (const [i, r] of readings.entries()) {
    xy[2 * i] = r.x;
    xy[2 * i + 1] = r.y;
  }
  const raw = triangulate(xy);
  if (raw.corners.length === 0) return null;
  const nodes = new Nodes();
  for (const r of inside) nodes.add(r.x, r.y, r.z, r.index);
  const wanted: [number, number, number][] = [];
  const hullCuts = new Map<number, number[]>();
  const step = Math.max(CLOSE_MM, Math.sqrt(hullArea(xy, raw) / readings.length));
  for (const loop of loops) nodeLoop(loop, { readings, raw, plane, step, nodes, wanted, hullCuts, inside });
  const edges: [number, number][] = wanted.map(([a, b]) => [a, b]);
  addHullEdges(readings, raw, hullCuts, nodes, edges);
  return assemble(nodes, edges, wanted, loops, { xy, raw });
}

function assemble(
  nodes: Nodes,
  edges: [number, number][],
  wanted: [number, number, number][],
  loops: BoundaryLoop[],
  measuredBy: { xy: Float64Array; raw: Triangulation },
): BaseMesh | null {
  const xy = new Float64Array(nodes.x.length * 2);
  for (let i = 0; i < nodes.x.length; i++) {
    xy[2 * i] = nodes.x[i]!;
    xy[2 * i + 1] = nodes.y[i]!;
  }
  const all = triangulate(xy, edges);
  const keep: number[] = [];
  const place = new Int32Array(all.corners.length / 3).fill(-1);
  const centres: [number, number][] = [];
  const inside = all.failed === 0 ? leftOfLoops(all, wanted, nodes.x.length) : null;
  for (let t = 0; t < all.corners.length / 3; t++) {
    const [cx, cy] = centroid(nodes, all.corners, t);
    if (inside ? !inside[t] : !insideLoops(loops, cx, cy)) continue;
    place[t] = keep.length;
    keep.push(t);
    centres.push([cx, cy]);
  }
  if (keep.length === 0) return null;
  const corners = new Int32Array(keep.length * 3);
  const twins = new Int32Array(keep.length * 3);
  for (const [i, t] of keep.entries()) {
    for (let k = 0; k < 3; k++) {
      corners[3 * i + k] = all.corners[3 * t + k]!;
      const twin = all.twins[3 * t + k]!;
      const other = twin < 0 ? -1 : place[Math.floor(twin / 3)]!;
      twins[3 * i + k] = other < 0 ? -1 : 3 * other + (twin % 3);
    }
  }
  const hull = hullRing(measuredBy.xy, measuredBy.raw);
  const measured = new Uint8Array(keep.length);
  // The hull is convex: between three readings everything lies within it.
  const own = (i: number) => nodes.reading[corners[i]!]! >= 0;
  for (const [i, [cx, cy]] of centres.entries()) {
    const between = own(3 * i) && own(3 * i + 1) && own(3 * i + 2);
    measured[i] = between || insideConvex(hull, cx, cy) ? 1 : 0;
  }
  const mesh: BaseMesh = {
    x: Float64Array.from(nodes.x),
    y: Float64Array.from(nodes.y),
    z: Float64Array.from(nodes.z),
    reading: Int32Array.from(nodes.reading),
    corners,
    twins,
    measured,
    rim: rimLabels(corners, twins, wanted, nodes.x.length),
    spacingMm: 0,
  };
  mesh.spacingMm = widestGapToReading(mesh);
  return mesh;
}

/**
 * Triangles on the left of the loops (outline counter-clockwise, holes clockwise), by neighbourhood alone: nodes on an
 * edge lie a last digit off it, and the slivers between have no centre that could be trusted.
 */
function leftOfLoops(all: Triangulation, wanted: [number, number, number][], size: number): Uint8Array {
  const forward = new Set(wanted.map(([a, b]) => a * size + b));
  const inside = new Uint8Array(all.corners.length / 3);
  const barred = new Uint8Array(all.corners.length);
  const todo: number[] = [];
  for (let e = 0; e < all.corners.length; e++) {
    const a = all.corners[e]!;
    const b = all.corners[nextEdge(e)]!;
    if (!forward.has(a * size + b)) {
      barred[e] = forward.has(b * size + a) ? 1 : 0;
      continue;
    }
    barred[e] = 1;
    const t = Math.floor(e / 3);
    if (!inside[t]) {
      inside[t] = 1;
      todo.push(t);
    }
  }
  for (let t = todo.pop(); t !== undefined; t = todo.pop()) {
    for (let e = 3 * t; e < 3 * t + 3; e++) {
      const other = all.twins[e]! < 0 || barred[e] ? -1 : Math.floor(all.twins[e]! / 3);
      if (other < 0 || inside[other]) continue;
      inside[other] = 1;
      todo.push(other);
    }
  }
  return inside;
}

function centroid(nodes: Nodes, corners: Int32Array, t: number): [number, number] {
  const a = corners[3 * t]!;
  const b = corners[3 * t + 1]!;
  const c = corners[3 * t + 2]!;
  return [(nodes.x[a]! + nodes.x[b]! + nodes.x[c]!) / 3, (nodes.y[a]! + nodes.y[b]! + nodes.y[c]!) / 3];
}

function rimLabels(
  corners: Int32Array,
  twins: Int32Array,
  wanted: [number, number, number][],
  size: number,
): Int32Array {
  const labels = new Map<number, number>();
  for (const [a, b, label] of wanted) labels.set(Math.min(a, b) * size + Math.max(a, b), label);
  const rim = new Int32Array(corners.length).fill(-1);
  for (let e = 0; e < corners.length; e++) {
    if (twins[e] !== -1) continue;
    const a = corners[e]!;
    const b = corners[nextEdge(e)]!;
    rim[e] = labels.get(Math.min(a, b) * size + Math.max(a, b)) ?? -1;
  }
  return rim;
}

function hullArea(xy: Float64Array, raw: Triangulation): number {
  let area = 0;
  for (let e = 0; e < raw.corners.length; e += 3) {
    const a = 2 * raw.corners[e]!;
    const b = 2 * raw.corners[e + 1]!;
    const c = 2 * raw.corners[e + 2]!;
    area += ((xy[b]! - xy[a]!) * (xy[c + 1]! - xy[a + 1]!) - (xy[c]! - xy[a]!) * (xy[b + 1]! - xy[a + 1]!)) / 2;
  }
  return area;
}

function hullRing(xy: Float64Array, raw: Triangulation): [number, number, number, number][] {
  const ring: [number, number, number, number][] = [];
  for (let e = 0; e < raw.corners.length; e++) {
    if (raw.twins[e] !== -1) continue;
    const a = 2 * raw.corners[e]!;
    const b = 2 * raw.corners[nextEdge(e)]!;
    ring.push([xy[a]!, xy[a + 1]!, xy[b]!, xy[b + 1]!]);
  }
  return ring;
}

/** Inside the hull, or within a hundredth of a millimetre of it. */
function insideConvex(ring: [number, number, number, number][], x: number, y: number): boolean {
  for (const [x0, y0, x1, y1] of ring) {
    const cross = (x1 - x0) * (y - y0) - (x - x0) * (y1 - y0);
    if (cross < 0 && cross * cross > SAME_MM * SAME_MM * ((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0))) return false;
  }
  return true;
}
