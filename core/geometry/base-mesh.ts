import { type BoundaryLoop, loopsOf, type MeshSite } from "./base-loops.ts";
import { nextEdge, previousEdge, type Triangulation, triangulate } from "./delaunay.ts";
import { fitPlane, heightOn, type PlaneAbc } from "./plane.ts";

export type { MeshSite } from "./base-loops.ts";

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
export type Level = { readonly xMm: number; readonly yMm: number; readonly zMm: number };

/** Two points closer than this are one place, mm: a tenth of what a tape can read would already do. */
const SAME_MM = 0.01;
/** Points are not put on the edge closer together than this, mm. */
const CLOSE_MM = 1;

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
  const inside = readings.filter((r) => insideLoops(loops, r.x, r.y) || onLoops(loops, r.x, r.y));
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

interface Reading {
  x: number;
  y: number;
  z: number;
  index: number;
}

/** Readings at one place become one, at their mean height. */
function mergePlaces(levels: readonly Level[]): Reading[] {
  const at = new Map<string, { x: number; y: number; sum: number; n: number; index: number }>();
  for (const [index, l] of levels.entries()) {
    const key = placeKey(l.xMm, l.yMm);
    const known = at.get(key);
    if (known) {
      known.sum += l.zMm;
      known.n++;
    } else at.set(key, { x: l.xMm, y: l.yMm, sum: l.zMm, n: 1, index });
  }
  return [...at.values()].map((p) => ({ x: p.x, y: p.y, z: p.sum / p.n, index: p.index }));
}

function placeKey(x: number, y: number): string {
  return `${Math.round(x / SAME_MM) + 0},${Math.round(y / SAME_MM) + 0}`;
}

class Nodes {
  readonly x: number[] = [];
  readonly y: number[] = [];
  readonly z: number[] = [];
  readonly reading: number[] = [];
  private readonly at = new Map<string, number>();

  add(x: number, y: number, z: number, reading: number): number {
    const key = placeKey(x, y);
    const known = this.at.get(key);
    if (known !== undefined) return known;
    this.at.set(key, this.x.length);
    this.x.push(x);
    this.y.push(y);
    this.z.push(z);
    this.reading.push(reading);
    return this.x.length - 1;
  }

  find(x: number, y: number): number {
    return this.at.get(placeKey(x, y)) ?? -1;
  }
}

interface Noding {
  readings: Reading[];
  raw: Triangulation;
  plane: PlaneAbc;
  step: number;
  nodes: Nodes;
  wanted: [number, number, number][];
  /** Rim half-edge of the raw triangulation -> nodes on it. */
  hullCuts: Map<number, number[]>;
  inside: Reading[];
}

/** Puts the nodes of one boundary loop: its vertices, readings on it, and its crossings with the raw triangulation. */
function nodeLoop(loop: BoundaryLoop, n: Noding): void {
  const count = loop.xy.length;
  for (let i = 0; i < count; i++) {
    const [x0, y0] = loop.xy[i]!;
    const [x1, y1] = loop.xy[(i + 1) % count]!;
    const length = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
    if (length < SAME_MM) continue;
    const stops: { s: number; node: number }[] = [
      { s: 0, node: cornerNode(n, x0, y0) },
      { s: length, node: cornerNode(n, x1, y1) },
    ];
    const ux = (x1 - x0) / length;
    const uy = (y1 - y0) / length;
    for (const r of n.inside) {
      const s = (r.x - x0) * ux + (r.y - y0) * uy;
      const off = (r.y - y0) * ux - (r.x - x0) * uy;
      if (s > SAME_MM && s < length - SAME_MM && Math.abs(off) <= SAME_MM) {
        stops.push({ s, node: n.nodes.find(r.x, r.y) });
      }
    }
    const crossings = edgeCrossings(n, x0, y0, ux, uy, length);
    for (const c of crossings) {
      const near = stops.find((t) => Math.abs(t.s - c.s) < CLOSE_MM);
      const node = near ? near.node : n.nodes.add(x0 + ux * c.s, y0 + uy * c.s, c.z, -1);
      if (!near) stops.push({ s: c.s, node });
      if (n.raw.twins[c.edge] === -1) {
        const cuts = n.hullCuts.get(c.edge);
        if (cuts) cuts.push(node);
        else n.hullCuts.set(c.edge, [node]);
      }
    }
    stops.sort((a, b) => a.s - b.s);
    carryOn(n, stops, x0, y0, ux, uy);
    for (let k = 1; k < stops.length; k++) {
      const a = stops[k - 1]!.node;
      const b = stops[k]!.node;
      if (a !== b) n.wanted.push([a, b, loop.label[i]!]);
    }
  }
}

/** Long stretches of the edge beyond the hull get a node every reading's width, so that heights follow their neighbours. */
function carryOn(
  n: Noding,
  stops: { s: number; node: number }[],
  x0: number,
  y0: number,
  ux: number,
  uy: number,
): void {
  const given = stops.length;
  for (let k = 1; k < given; k++) {
    const from = stops[k - 1]!.s;
    const gap = stops[k]!.s - from;
    if (gap <= 1.5 * n.step) continue;
    const middle = from + gap / 2;
    if (locate(n.readings, n.raw, x0 + ux * middle, y0 + uy * middle) >= 0) continue;
    const parts = Math.min(200, Math.ceil(gap / n.step));
    for (let p = 1; p < parts; p++) {
      const s = from + (gap * p) / parts;
      stops.push({ s, node: cornerNode(n, x0 + ux * s, y0 + uy * s) });
    }
  }
  stops.sort((a, b) => a.s - b.s);
}

/** A node at a place of the edge, its height from the raw triangulation or carried on beyond it. */
function cornerNode(n: Noding, x: number, y: number): number {
  const known = n.nodes.find(x, y);
  if (known >= 0) return known;
  const t = locate(n.readings, n.raw, x, y);
  return n.nodes.add(x, y, t >= 0 ? heightIn(n.readings, n.raw, t, x, y) : carriedHeight(n, x, y), -1);
}

function carriedHeight(n: Noding, x: number, y: number): number {
  let best = Number.POSITIVE_INFINITY;
  let residual = 0;
  for (const r of n.inside) {
    const d = (r.x - x) * (r.x - x) + (r.y - y) * (r.y - y);
    if (d < best) {
      best = d;
      residual = r.z - heightOn(n.plane, r.x, r.y);
    }
  }
  return heightOn(n.plane, x, y) + residual;
}

function heightIn(readings: Reading[], raw: Triangulation, t: number, x: number, y: number): number {
  const p = readings[raw.corners[3 * t]!]!;
  const q = readings[raw.corners[3 * t + 1]!]!;
  const r = readings[raw.corners[3 * t + 2]!]!;
  const det = (q.x - p.x) * (r.y - p.y) - (r.x - p.x) * (q.y - p.y);
  const wq = ((x - p.x) * (r.y - p.y) - (r.x - p.x) * (y - p.y)) / det;
  const wr = ((q.x - p.x) * (y - p.y) - (x - p.x) * (q.y - p.y)) / det;
  return p.z + wq * (q.z - p.z) + wr * (r.z - p.z);
}

/** Triangle that holds a place, or -1 outside the hull. Walks from triangle to triangle; gives up to a full look. */
function locate(readings: Reading[], raw: Triangulation, x: number, y: number): number {
  let t = 0;
  const triangles = raw.corners.length / 3;
  for (let step = 0; step < triangles + 3; step++) {
    let leave = -1;
    for (let k = 0; k < 3; k++) {
      const p = readings[raw.corners[3 * t + k]!]!;
      const q = readings[raw.corners[3 * t + ((k + 1) % 3)]!]!;
      if ((q.x - p.x) * (y - p.y) - (x - p.x) * (q.y - p.y) < 0) leave = 3 * t + k;
    }
    if (leave < 0) return t;
    const twin = raw.twins[leave]!;
    if (twin < 0) return -1;
    t = Math.floor(twin / 3);
  }
  return -1;
}

function edgeCrossings(n: Noding, x0: number, y0: number, ux: number, uy: number, length: number) {
  const found: { s: number; z: number; edge: number }[] = [];
  const { corners, twins } = n.raw;
  for (let e = 0; e < corners.length; e++) {
    if (twins[e]! > e) continue;
    const p = n.readings[corners[e]!]!;
    const q = n.readings[corners[nextEdge(e)]!]!;
    const dp = (p.y - y0) * ux - (p.x - x0) * uy;
    const dq = (q.y - y0) * ux - (q.x - x0) * uy;
    // An end on the line is a node already, or lies beyond the edge.
    if (dp > SAME_MM === dq > SAME_MM || Math.abs(dp) <= SAME_MM || Math.abs(dq) <= SAME_MM) continue;
    const f = dp / (dp - dq);
    const s = (p.x + f * (q.x - p.x) - x0) * ux + (p.y + f * (q.y - p.y) - y0) * uy;
    if (s > 0 && s < length) found.push({ s, z: p.z + f * (q.z - p.z), edge: e });
  }
  return found.sort((a, b) => a.s - b.s || a.edge - b.edge);
}

/** The hull of the readings becomes edges too, so that measured and carried-on triangles do not mix. */
function addHullEdges(
  readings: Reading[],
  raw: Triangulation,
  cuts: Map<number, number[]>,
  nodes: Nodes,
  edges: [number, number][],
): void {
  for (let e = 0; e < raw.corners.length; e++) {
    if (raw.twins[e] !== -1) continue;
    const p = readings[raw.corners[e]!]!;
    const q = readings[raw.corners[nextEdge(e)]!]!;
    const at = (i: number) => (nodes.x[i]! - p.x) * (q.x - p.x) + (nodes.y[i]! - p.y) * (q.y - p.y);
    const chain = [nodes.find(p.x, p.y), ...(cuts.get(e) ?? []), nodes.find(q.x, q.y)].filter((i) => i >= 0);
    chain.sort((a, b) => at(a) - at(b) || a - b);
    for (let k = 1; k < chain.length; k++) if (chain[k] !== chain[k - 1]) edges.push([chain[k - 1]!, chain[k]!]);
  }
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
  const inside = all.failed === 0 ? leftOfLoops(all, wanted) : null;
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
  for (const [i, [cx, cy]] of centres.entries()) measured[i] = insideConvex(hull, cx, cy) ? 1 : 0;
  const mesh: BaseMesh = {
    x: Float64Array.from(nodes.x),
    y: Float64Array.from(nodes.y),
    z: Float64Array.from(nodes.z),
    reading: Int32Array.from(nodes.reading),
    corners,
    twins,
    measured,
    rim: rimLabels(corners, twins, wanted),
    spacingMm: 0,
  };
  mesh.spacingMm = spacing(mesh);
  return mesh;
}

/**
 * Triangles on the left of the loops (outline counter-clockwise, holes clockwise), by neighbourhood alone: nodes on an
 * edge lie a last digit off it, and the slivers between have no centre that could be trusted.
 */
function leftOfLoops(all: Triangulation, wanted: [number, number, number][]): Uint8Array {
  const forward = new Set(wanted.map(([a, b]) => `${a},${b}`));
  const inside = new Uint8Array(all.corners.length / 3);
  const barred = new Uint8Array(all.corners.length);
  const todo: number[] = [];
  for (let e = 0; e < all.corners.length; e++) {
    const a = all.corners[e]!;
    const b = all.corners[nextEdge(e)]!;
    if (!forward.has(`${a},${b}`)) {
      barred[e] = forward.has(`${b},${a}`) ? 1 : 0;
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

function rimLabels(corners: Int32Array, twins: Int32Array, wanted: [number, number, number][]): Int32Array {
  const labels = new Map<string, number>();
  for (const [a, b, label] of wanted) labels.set(a < b ? `${a},${b}` : `${b},${a}`, label);
  const rim = new Int32Array(corners.length).fill(-1);
  for (let e = 0; e < corners.length; e++) {
    if (twins[e] !== -1) continue;
    const a = corners[e]!;
    const b = corners[nextEdge(e)]!;
    rim[e] = labels.get(a < b ? `${a},${b}` : `${b},${a}`) ?? -1;
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

export function insideLoops(loops: readonly BoundaryLoop[], x: number, y: number): boolean {
  let inside = false;
  for (const { xy } of loops) {
    for (let i = 0, j = xy.length - 1; i < xy.length; j = i++) {
      const [xi, yi] = xy[i]!;
      const [xj, yj] = xy[j]!;
      if (yi > y !== yj > y && x < xi + ((y - yi) / (yj - yi)) * (xj - xi)) inside = !inside;
    }
  }
  return inside;
}

function onLoops(loops: readonly BoundaryLoop[], x: number, y: number): boolean {
  for (const { xy } of loops) {
    for (let i = 0, j = xy.length - 1; i < xy.length; j = i++) {
      const [x0, y0] = xy[j]!;
      const [x1, y1] = xy[i]!;
      const dx = x1 - x0;
      const dy = y1 - y0;
      const length2 = dx * dx + dy * dy;
      const f = length2 > 0 ? Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / length2)) : 0;
      const ex = x0 + f * dx - x;
      const ey = y0 + f * dy - y;
      if (ex * ex + ey * ey <= SAME_MM * SAME_MM) return true;
    }
  }
  return false;
}

/**
 * Largest distance from a place of the base to the nearest reading that counts. The greatest lies at a Voronoi corner
 * (the circumcentre of a triangle of readings) inside the base, or on the edge; the edge is looked at where it has
 * nodes, which lie no further apart than the readings do.
 */
function spacing(mesh: BaseMesh): number {
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

function covers(mesh: BaseMesh, x: number, y: number): boolean {
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
