import { Clipper, ClipType, FillRule } from "clipper2-ts";
import { flattenRing } from "../geometry/arc.ts";
import type { BaseMesh } from "../geometry/base-mesh.ts";
import { triangleArea } from "../geometry/volume.ts";
import { type HalfPlane, type PlanePart, partAt } from "./facets.ts";

type Ring = readonly (readonly [number, number, number])[];
/** Half-planes are drawn this large, in micrometres: beyond any site. */
const FAR_UM = 4e9;

/** Outer rings of the outline within a part's half-planes, mm; several where the outline turns back on itself. */
export function ringsWithin(outline: Ring, within: readonly HalfPlane[]): [number, number][][] {
  if (within.length === 0) return [flattenRing(outline)];
  let paths = [flattenRing(outline).map(([x, y]) => ({ x: Math.round(x * 1000), y: Math.round(y * 1000) }))];
  for (const h of within) {
    const corner = (along: number, depth: number) => ({
      x: Math.round(h.nx * (h.d * 1000 - depth) - h.ny * along),
      y: Math.round(h.ny * (h.d * 1000 - depth) + h.nx * along),
    });
    const half = [corner(-FAR_UM, 0), corner(FAR_UM, 0), corner(FAR_UM, FAR_UM), corner(-FAR_UM, FAR_UM)];
    paths = Clipper.booleanOp(ClipType.Intersection, paths, [half], FillRule.NonZero);
  }
  return paths.map((path) => path.map((p): [number, number] => [p.x / 1000, p.y / 1000]));
}

/** Area of each part of the base, cut-outs left out: triangles that straddle a ridge are counted by their centre. */
export function partAreas(mesh: BaseMesh, parts: readonly PlanePart[]): number[] {
  const areas = parts.map(() => 0);
  for (let t = 0; t < mesh.corners.length; t += 3) {
    const [a, b, c] = [mesh.corners[t]!, mesh.corners[t + 1]!, mesh.corners[t + 2]!];
    const k = partAt(parts, (mesh.x[a]! + mesh.x[b]! + mesh.x[c]!) / 3, (mesh.y[a]! + mesh.y[b]! + mesh.y[c]!) / 3);
    areas[k]! += triangleArea(mesh, a, b, c);
  }
  return areas;
}
