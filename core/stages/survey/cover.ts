import type { Ring, Uv } from "../../geometry/frame.ts";
import { regionsOf } from "../../geometry/region.ts";
import { regionArea } from "../../geometry/ring.ts";
import { crossingPair, type FlatRing, whereIs } from "./ring.ts";

/** Less than this is rounding, um2 (a square millimetre). */
const DUST_UM2 = 1e6;

/** What is left of the outline when the cut-outs are taken out, um2. */
export function areaUm2(outline: FlatRing, cutouts: readonly FlatRing[]): number {
  if (cutouts.length === 0) return Math.abs(outline.areaUm2);
  let area = 0;
  for (const region of regionsOf([toRing(outline)], cutouts.map(toRing))) area += regionArea(region);
  return area;
}

/** Whether cut-outs leave nothing of the outline. Asked of the clipper only where their areas could do it. */
export function coversAll(outline: FlatRing, cutouts: readonly FlatRing[]): boolean {
  let sum = 0;
  for (const cutout of cutouts) sum += Math.abs(cutout.areaUm2);
  return sum >= Math.abs(outline.areaUm2) - DUST_UM2 && areaUm2(outline, cutouts) < DUST_UM2;
}

/** Whether a ring has no area in common with the outline: beside it, or touching it from outside. */
export function liesOutside(ring: FlatRing, outline: FlatRing): boolean {
  if (apart(ring, outline)) return true;
  for (let i = 0; i < ring.xsUm.length; i++) if (whereIs(outline, ring.xsUm[i]!, ring.ysUm[i]!) === 1) return false;
  for (let i = 0; i < outline.xsUm.length; i++)
    if (whereIs(ring, outline.xsUm[i]!, outline.ysUm[i]!) === 1) return false;
  if (crossingPair(ring, outline)) return false;
  // corners only touch: on the line, or the very same ring
  const both = regionsOf([toRing(ring)], [toRing(outline)]);
  let left = 0;
  for (const region of both) left += regionArea(region);
  return Math.abs(ring.areaUm2) - left < DUST_UM2;
}

function apart(a: FlatRing, b: FlatRing): boolean {
  const [p, q] = [boxOf(a), boxOf(b)];
  return p.x1 < q.x0 || q.x1 < p.x0 || p.y1 < q.y0 || q.y1 < p.y0;
}

export interface FlatBox {
  x0: number;
  x1: number;
  y0: number;
  y1: number;
}

/** The box round a flat ring, um. */
export function boxOf({ xsUm: xs, ysUm: ys }: FlatRing): FlatBox {
  const box = { x0: xs[0]!, x1: xs[0]!, y0: ys[0]!, y1: ys[0]! };
  for (let i = 1; i < xs.length; i++) {
    box.x0 = Math.min(box.x0, xs[i]!);
    box.x1 = Math.max(box.x1, xs[i]!);
    box.y0 = Math.min(box.y0, ys[i]!);
    box.y1 = Math.max(box.y1, ys[i]!);
  }
  return box;
}

/** Counter-clockwise, as the clipper wants it. */
function toRing(flat: FlatRing): Ring {
  const ring = Array.from(flat.xsUm, (x, i): Uv => [x, flat.ysUm[i]!]);
  return flat.areaUm2 > 0 ? ring : ring.reverse();
}
