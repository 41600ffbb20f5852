import type { Finding } from "../../base/finding.ts";
import { middleOf, type Trapezoid, trapezoids } from "../../geometry/chords.ts";
import type { Region } from "../../geometry/frame.ts";

/** A long bare place is named about every this much of its length, um, so that no part of it lies far from a finding. */
export const NAME_EVERY_UM = 500_000;
/** Below this nothing is named, um2 (0.1 mm2). */
export const NOTHING_UM2 = 1e5;

/** Points inside trapezoids in order of u, about NAME_EVERY_UM apart; at least one. */
export function pointsAlong(parts: readonly Trapezoid[]): [number, number][] {
  if (parts.length === 0) return [];
  const from = parts[0]!.u0;
  const to = parts[parts.length - 1]!.u1;
  const count = Math.max(1, Math.ceil((to - from) / NAME_EVERY_UM));
  const out: [number, number][] = [];
  let k = 0;
  for (let i = 0; i < count; i++) {
    const u = from + ((to - from) * (i + 0.5)) / count;
    while (k + 1 < parts.length && parts[k]!.u1 < u) k++;
    const t = parts[k]!;
    out.push(middleOf(t, Math.min(1, Math.max(0, (u - t.u0) / (t.u1 - t.u0)))));
  }
  return out;
}

/** Points inside a region, in order of u, about NAME_EVERY_UM apart along it. */
export function pointsIn(region: Region): [number, number][] {
  const slabs = trapezoids(region);
  return pointsAlong(slabs.map((slab) => widest(slab)).filter((t): t is Trapezoid => t !== null));
}

function widest(slab: readonly Trapezoid[]): Trapezoid | null {
  let best: Trapezoid | null = null;
  let most = -1;
  for (const t of slab) {
    const size = t.high0 - t.low0 + t.high1 - t.low1;
    if (size > most) {
      most = size;
      best = t;
    }
  }
  return best;
}

/** Area of trapezoids, um2. */
export function areaOf(parts: readonly Trapezoid[]): number {
  let area = 0;
  for (const t of parts) area += ((t.u1 - t.u0) * (t.high0 - t.low0 + t.high1 - t.low1)) / 2;
  return area;
}

/** A `cover` finding in frame micrometres; `at` is turned into the site when the origin is known. */
export type BareFinding = Omit<Finding, "at"> & { uv: [number, number] };
