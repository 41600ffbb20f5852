import type { BaseMesh } from "./base-mesh.ts";
import { nextEdge } from "./delaunay.ts";
import { addPoint, emptySums, type FallingPlane, planeOf, solvePlane } from "./plane.ts";
import { triangleArea } from "./volume.ts";

/** Fall round a point of the mesh: the least-squares plane of the readings within some distance. */
export interface LocalFall {
  point: number;
  plane: FallingPlane;
}
/** A connected area of points that fail: its worst point and its size. */
export interface FailingArea {
  worst: number;
  areaMm2: number;
}

/**
 * Falls at each reading over a disc of `radiusMm`, readings of the same part only (a ridge is not a flat place).
 * A slope between two single readings is mostly their error: 1 mm on 500 mm is 0.2 %; over a disc the errors cancel.
 * Readings whose disc holds fewer than four readings, or readings on one line, have none. O(n) for even readings.
 */
export function localFalls(mesh: BaseMesh, radiusMm: number, part: (point: number) => number): LocalFall[] {
  const cells = new Map<string, number[]>();
  const cellOf = (v: number) => Math.floor(v / radiusMm);
  const own: number[] = [];
  for (let i = 0; i < mesh.x.length; i++) {
    if (mesh.reading[i]! < 0) continue;
    own.push(i);
    const key = `${cellOf(mesh.x[i]!)},${cellOf(mesh.y[i]!)}`;
    const list = cells.get(key);
    if (list) list.push(i);
    else cells.set(key, [i]);
  }
  const parts = Int32Array.from(mesh.x, (_, i) => part(i));
  const out: LocalFall[] = [];
  for (const i of own) {
    const sums = emptySums();
    const [cx, cy] = [cellOf(mesh.x[i]!), cellOf(mesh.y[i]!)];
    for (let gx = cx - 1; gx <= cx + 1; gx++) {
      for (let gy = cy - 1; gy <= cy + 1; gy++) {
        for (const j of cells.get(`${gx},${gy}`) ?? []) {
          const dx = mesh.x[j]! - mesh.x[i]!;
          const dy = mesh.y[j]! - mesh.y[i]!;
          if (parts[j] === parts[i] && dx * dx + dy * dy <= radiusMm * radiusMm) {
            addPoint(sums, dx, dy, mesh.z[j]! - mesh.z[i]!);
          }
        }
      }
    }
    const plane = sums.n >= 4 ? solvePlane(sums) : null;
    if (!plane) continue;
    const c = plane.c + mesh.z[i]! - plane.a * mesh.x[i]! - plane.b * mesh.y[i]!;
    out.push({ point: i, plane: planeOf(plane.a, plane.b, c) });
  }
  return out;
}

/** Points that fail, merged over the mesh's edges; the worst has the greatest `badness`. Areas: a third of each triangle. */
export function failingAreas(mesh: BaseMesh, badness: Map<number, number>): FailingArea[] {
  const area = new Float64Array(mesh.x.length);
  const root = Int32Array.from(mesh.x, (_, i) => i);
  const find = (i: number): number => {
    let r = i;
    while (root[r] !== r) r = root[r]!;
    root[i] = r;
    return r;
  };
  for (let e = 0; e < mesh.corners.length; e++) {
    const a = mesh.corners[e]!;
    const b = mesh.corners[nextEdge(e)]!;
    if (e % 3 === 0) {
      const third = triangleArea(mesh, a, b, mesh.corners[e + 2]!) / 3;
      for (const p of [a, b, mesh.corners[e + 2]!]) area[p]! += third;
    }
    if (badness.has(a) && badness.has(b)) {
      const [p, q] = [find(a), find(b)];
      root[Math.max(p, q)] = Math.min(p, q);
    }
  }
  const merged = new Map<number, FailingArea>();
  for (const [i, bad] of badness) {
    const known = merged.get(find(i));
    if (!known) merged.set(find(i), { worst: i, areaMm2: area[i]! });
    else {
      known.areaMm2 += area[i]!;
      if (bad > badness.get(known.worst)!) known.worst = i;
    }
  }
  return [...merged.values()].sort((p, q) => q.areaMm2 - p.areaMm2 || p.worst - q.worst);
}
