import type { BaseMesh } from "../../geometry/base-mesh.ts";
import { clipBy, type Polygon } from "../../geometry/clip-prism.ts";
import { type FallingPlane, heightOn } from "../../geometry/plane.ts";
import type { BaseMaterial, Job } from "../../job/job.ts";
import type { PreparationWhy } from "./findings.ts";
import { type Changes, type Quantities, quantitiesOf } from "./quantities.ts";
import type { PreparationOption } from "./record.ts";

/** An option with what only this stage needs to know of it. */
export type Prepared = PreparationOption & { thin: { areaMm2: number; material: BaseMaterial; cutIn: boolean } | null };

/** Changes below this are none, mm: solving leaves such dust on points that a plane meets exactly. */
const DUST_MM = 1e-6;

/** Height of the target at each point of the mesh, less the base: dust swept away. */
export function changesTo(mesh: BaseMesh, height: (x: number, y: number) => number): Float64Array {
  return Float64Array.from(mesh.x, (x, i) => {
    const t = height(x, mesh.y[i]!) - mesh.z[i]!;
    return Math.abs(t) < DUST_MM ? 0 : t;
  });
}

/** The mesh cut along a line (nx x + ny y = d), so that a target bent there is straight over every triangle. */
export function cutAlong(
  mesh: BaseMesh,
  nx: number,
  ny: number,
  d: number,
  height: (x: number, y: number) => number,
): Changes {
  const x: number[] = [];
  const y: number[] = [];
  const change: number[] = [];
  const corners: number[] = [];
  const put = (p: Polygon) => {
    const first = x.length;
    for (const [px, py, z] of p) {
      x.push(px);
      y.push(py);
      const t = height(px, py) - z;
      change.push(Math.abs(t) < DUST_MM ? 0 : t);
    }
    for (let k = 2; k < p.length; k++) corners.push(first, first + k - 1, first + k);
  };
  for (let t = 0; t < mesh.corners.length; t += 3) {
    const triangle = [0, 1, 2].map((k): [number, number, number] => {
      const i = mesh.corners[t + k]!;
      return [mesh.x[i]!, mesh.y[i]!, mesh.z[i]!];
    });
    const side = (p: readonly [number, number, number]) => nx * p[0] + ny * p[1] - d;
    put(clipBy(triangle, side));
    put(clipBy(triangle, (p) => -side(p)));
  }
  return { x, y, corners, change };
}

/** What to do at each reading. */
export function stakesOf(mesh: BaseMesh, change: ArrayLike<number>): PreparationOption["stakes"] {
  const stakes: PreparationOption["stakes"] = [];
  for (let i = 0; i < mesh.x.length; i++) {
    if (mesh.reading[i]! < 0) continue;
    stakes.push({
      at: [mesh.x[i]!, mesh.y[i]!],
      nowMm: mesh.z[i]!,
      thenMm: mesh.z[i]! + change[i]!,
      changeMm: change[i]!,
    });
  }
  return stakes;
}

export function optionOf(
  job: Job,
  option: PreparationOption["option"],
  why: PreparationWhy,
  feasible: boolean,
  done: {
    changes: Changes;
    stakes: PreparationOption["stakes"];
    planes: FallingPlane[];
    material: BaseMaterial | null;
  },
): Prepared {
  const { thinMm2, cutIn, ...q }: Quantities = quantitiesOf(job, done.changes, done.material);
  const thin = done.material && thinMm2 > 0 ? { areaMm2: thinMm2, material: done.material, cutIn } : null;
  return { option, why, feasible, planes: done.planes, stakes: done.stakes, ...q, thin };
}

/** An option that was not worked out, as there is nothing to work with. */
export function emptyOption(option: PreparationOption["option"], why: PreparationWhy, feasible: boolean): Prepared {
  const nothing = { grindMm3: 0, fillMm3: 0, massKg: 0, massPerM2Kg: 0, costMinor: 0 };
  return { option, why, feasible, ...nothing, planes: [], materials: [], stakes: [], thin: null };
}

/** Materials that can make a target: pourable compound finds its level, so only where no fall is wanted; cheapest first. */
export function materialsFor(job: Job, level: boolean): BaseMaterial[] {
  const all = job.base.preparation.materials.map((m, i) => ({ m, i })).filter(({ m }) => level || m.kind === "shaped");
  return all.sort((p, q) => p.m.cost - q.m.cost || p.i - q.i).map(({ m }) => m);
}

export function onPlane(plane: FallingPlane): (x: number, y: number) => number {
  return (x, y) => heightOn(plane, x, y);
}
