import type { BaseMesh } from "./base-mesh.ts";
import { nextEdge } from "./delaunay.ts";
import { type FloodGraph, floodLevels } from "./flood.ts";
import { addAbove, triangleArea } from "./volume.ts";

type Xy = [x: number, y: number];
export interface Puddle {
  /** The deepest place. */
  at: Xy;
  depthMm: number;
  areaMm2: number;
  volumeMm3: number;
  /** Its shore, the longest ring of it. */
  ring: Xy[];
  /** Labels of the rim it reaches (sides, or -2 - cut-out), ascending. */
  touches: number[];
  /** Height of the water, and the points of the mesh under it. */
  levelMm: number;
  points: number[];
}
export interface Water {
  puddles: Puddle[];
  /** A place in each connected part of the base from which no outlet can be reached. */
  shut: Xy[];
}

/** Shallower water is not a puddle but a wet place, mm. */
const SHALLOW_MM = 0.5;

/**
 * Where water stands after rain: exact on the triangulated surface. Water leaves over rim edges for which `drains` says
 * yes and is dammed by all others. A part without any way out is let out at its lowest point, and named in `shut`.
 */
export function findPuddles(mesh: BaseMesh, drains: (rim: number) => boolean): Water {
  const graph = pointGraph(mesh);
  const outlets: number[] = [];
  for (let e = 0; e < mesh.corners.length; e++) {
    if (mesh.twins[e] !== -1 || !drains(mesh.rim[e]!)) continue;
    outlets.push(mesh.corners[e]!, mesh.corners[nextEdge(e)]!);
  }
  let level = floodLevels(graph, outlets);
  const shut: Xy[] = [];
  const lowest = lowestOfShut(graph, level);
  if (lowest.length > 0) {
    for (const i of lowest) shut.push([mesh.x[i]!, mesh.y[i]!]);
    level = floodLevels(graph, [...outlets, ...lowest]);
  }
  return { puddles: puddlesOf(mesh, graph, level), shut };
}

/** The points of the mesh that belong to triangles, as a graph along its edges. */
function pointGraph(mesh: BaseMesh): FloodGraph {
  const n = mesh.x.length;
  const lists: number[][] = Array.from({ length: n }, () => []);
  for (let e = 0; e < mesh.corners.length; e++) {
    const a = mesh.corners[e]!;
    const b = mesh.corners[nextEdge(e)]!;
    lists[a]!.push(b);
    if (mesh.twins[e] === -1) lists[b]!.push(a);
  }
  const first = new Int32Array(n + 1);
  for (let i = 0; i < n; i++) first[i + 1] = first[i]! + lists[i]!.length;
  return { z: mesh.z, first, neighbours: Int32Array.from(lists.flat()) };
}

function lowestOfShut(graph: FloodGraph, level: Float64Array): number[] {
  const seen = new Uint8Array(level.length);
  const out: number[] = [];
  for (let i = 0; i < level.length; i++) {
    if (seen[i] || level[i] !== Number.POSITIVE_INFINITY || graph.first[i] === graph.first[i + 1]) continue;
    let low = i;
    const todo = [i];
    seen[i] = 1;
    for (let p = todo.pop(); p !== undefined; p = todo.pop()) {
      if (graph.z[p]! < graph.z[low]!) low = p;
      for (let k = graph.first[p]!; k < graph.first[p + 1]!; k++) {
        const q = graph.neighbours[k]!;
        if (!seen[q]) {
          seen[q] = 1;
          todo.push(q);
        }
      }
    }
    out.push(low);
  }
  return out;
}

function puddlesOf(mesh: BaseMesh, graph: FloodGraph, level: Float64Array): Puddle[] {
  const pool = new Int32Array(level.length).fill(-1);
  const pools: { low: number; level: number }[] = [];
  for (let i = 0; i < level.length; i++) {
    if (pool[i] !== -1 || !(level[i]! > mesh.z[i]!) || level[i] === Number.POSITIVE_INFINITY) continue;
    const id = pools.length;
    let low = i;
    const todo = [i];
    pool[i] = id;
    for (let p = todo.pop(); p !== undefined; p = todo.pop()) {
      if (mesh.z[p]! < mesh.z[low]! || (mesh.z[p] === mesh.z[low] && p < low)) low = p;
      for (let k = graph.first[p]!; k < graph.first[p + 1]!; k++) {
        const q = graph.neighbours[k]!;
        if (pool[q] === -1 && level[q] === level[i] && level[q]! > mesh.z[q]!) {
          pool[q] = id;
          todo.push(q);
        }
      }
    }
    pools.push({ low, level: level[i]! });
  }
  const wanted = pools.map((p) => p.level - mesh.z[p.low]! >= SHALLOW_MM);
  const parts: number[][] = pools.map(() => []);
  for (let t = 0; t < mesh.corners.length / 3; t++) {
    let id = -1;
    for (let k = 0; k < 3; k++) id = Math.max(id, pool[mesh.corners[3 * t + k]!]!);
    if (id >= 0 && wanted[id]) parts[id]!.push(t);
  }
  const puddles: Puddle[] = [];
  for (const [id, p] of pools.entries()) if (wanted[id]) puddles.push(measure(mesh, p, parts[id]!));
  return puddles.sort((p, q) => q.volumeMm3 - p.volumeMm3 || p.at[0] - q.at[0] || p.at[1] - q.at[1]);
}

function measure(mesh: BaseMesh, pool: { low: number; level: number }, triangles: number[]): Puddle {
  const sum = { volumeMm3: 0, areaMm2: 0 };
  const touches = new Set<number>();
  const points = new Set<number>();
  const shore = new Shore();
  for (const t of triangles) {
    const [a, b, c] = [mesh.corners[3 * t]!, mesh.corners[3 * t + 1]!, mesh.corners[3 * t + 2]!];
    const depth = (i: number) => pool.level - mesh.z[i]!;
    addAbove(triangleArea(mesh, a, b, c), depth(a), depth(b), depth(c), sum);
    const wet: Xy[] = [];
    for (let k = 0; k < 3; k++) {
      const p = mesh.corners[3 * t + k]!;
      const q = mesh.corners[3 * t + ((k + 1) % 3)]!;
      const dp = depth(p);
      const dq = depth(q);
      if (dp > 0) {
        wet.push([mesh.x[p]!, mesh.y[p]!]);
        points.add(p);
      }
      if (dp > 0 !== dq > 0) wet.push(shorePoint(mesh, p, q, dp, dq));
      if (mesh.twins[3 * t + k] === -1 && (dp > 0 || dq > 0)) touches.add(mesh.rim[3 * t + k]!);
    }
    shore.add(wet);
  }
  return {
    at: [mesh.x[pool.low]!, mesh.y[pool.low]!],
    depthMm: pool.level - mesh.z[pool.low]!,
    ...sum,
    ring: shore.longest(),
    touches: [...touches].sort((p, q) => p - q),
    levelMm: pool.level,
    points: [...points].sort((p, q) => p - q),
  };
}

/** The same from both sides of an edge, to the last bit. */
function shorePoint(mesh: BaseMesh, p: number, q: number, dp: number, dq: number): Xy {
  if (p > q) return shorePoint(mesh, q, p, dq, dp);
  const f = dp / (dp - dq);
  return [mesh.x[p]! + f * (mesh.x[q]! - mesh.x[p]!), mesh.y[p]! + f * (mesh.y[q]! - mesh.y[p]!)];
}

/** Sums counter-clockwise polygons: edges met from both sides cancel, the rest is the shore. */
class Shore {
  private readonly edges = new Map<string, { from: Xy; to: Xy }>();

  add(polygon: Xy[]): void {
    for (let i = 0; i < polygon.length; i++) {
      const from = polygon[i]!;
      const to = polygon[(i + 1) % polygon.length]!;
      if (from[0] === to[0] && from[1] === to[1]) continue;
      const back = `${to[0]},${to[1]};${from[0]},${from[1]}`;
      if (this.edges.has(back)) this.edges.delete(back);
      else this.edges.set(`${from[0]},${from[1]};${to[0]},${to[1]}`, { from, to });
    }
  }

  longest(): Xy[] {
    const leaving = new Map<string, { from: Xy; to: Xy }[]>();
    for (const e of this.edges.values()) {
      const key = `${e.from[0]},${e.from[1]}`;
      const list = leaving.get(key);
      if (list) list.push(e);
      else leaving.set(key, [e]);
    }
    let best: Xy[] = [];
    let most = -1;
    for (const start of this.edges.values()) {
      const ring: Xy[] = [];
      let length = 0;
      for (let e = leaving.get(`${start.from[0]},${start.from[1]}`)?.shift(); e; ) {
        ring.push(e.from);
        const dx = e.to[0] - e.from[0];
        const dy = e.to[1] - e.from[1];
        length += Math.sqrt(dx * dx + dy * dy);
        e = leaving.get(`${e.to[0]},${e.to[1]}`)?.shift();
      }
      if (length > most) {
        most = length;
        best = ring;
      }
    }
    return best;
  }
}
