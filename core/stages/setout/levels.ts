import type { Region, Ring } from "../../geometry/frame.ts";
import type { SideKind } from "../../job/job.ts";
import type { TurnedSite } from "./turn.ts";

/** A place where the field ends across the rows: some length of edge at one level of v. */
export interface Level {
  vUm: number;
  /** Field above it (a lower edge) or below it (an upper edge). */
  upper: boolean;
  lengthUm: number;
  kind: SideKind | "cutout";
}
/** Steeper edges than this (dv : du) count as row ends, not as edges along the rows. */
const LEVEL_SLOPE = 0.1;
/** A tilted edge is sampled about every this much of v, um, at most MOST_SAMPLES times. */
const SAMPLE_UM = 1000;
const MOST_SAMPLES = 12;
const SAME_LEVEL_UM = 10;

/** Every edge of the field that runs (nearly) along the rows, with the kind of side behind it; equal ones merged. */
export function levelsOf(parts: readonly Region[], turned: TurnedSite): Level[] {
  const sides = alongSides(turned);
  const merged = new Map<string, Level>();
  for (const part of parts) {
    for (const ring of [part.outer, ...part.holes]) sampleRing(ring, sides, merged);
  }
  return [...merged.values()].sort((a, b) => a.vUm - b.vUm || Number(a.upper) - Number(b.upper) || order(a, b));
}

function order(a: Level, b: Level): number {
  return a.kind < b.kind ? -1 : a.kind > b.kind ? 1 : 0;
}

interface AlongSide {
  kind: SideKind;
  u: number;
  v: number;
  du: number;
  dv: number;
  gap: number;
}

function alongSides(turned: TurnedSite): AlongSide[] {
  const { outline, edges } = turned.site;
  const out: AlongSide[] = [];
  for (let i = 0; i < outline.length; i++) {
    const a = outline[i]!;
    const b = outline[(i + 1) % outline.length]!;
    const du = b[0] - a[0];
    const dv = b[1] - a[1];
    if (Math.abs(dv) > LEVEL_SLOPE * 1.5 * Math.abs(du)) continue;
    out.push({ kind: edges[i]!.kind, u: a[0], v: a[1], du, dv, gap: edges[i]!.gapUm });
  }
  return out;
}

/** The kind of the side whose moved line passes nearest under a point of the field's edge; "cutout" where none is near. */
function kindAt(sides: readonly AlongSide[], u: number, v: number, rightward: boolean): SideKind | "cutout" {
  let best: SideKind | "cutout" = "cutout";
  let bestOff = 500;
  for (const side of sides) {
    if (side.du > 0 !== rightward) continue;
    const length = Math.sqrt(side.du * side.du + side.dv * side.dv);
    const along = ((u - side.u) * side.du + (v - side.v) * side.dv) / length;
    if (along < -1e5 || along > length + 1e5) continue;
    const off = Math.abs(((v - side.v) * side.du - (u - side.u) * side.dv) / length - side.gap);
    if (off < bestOff) {
      bestOff = off;
      best = side.kind;
    }
  }
  return best;
}

function sampleRing(ring: Ring, sides: readonly AlongSide[], merged: Map<string, Level>): void {
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    const du = b[0] - a[0];
    const dv = b[1] - a[1];
    if (du === 0 || Math.abs(dv) > LEVEL_SLOPE * Math.abs(du)) continue;
    const upper = du < 0;
    const count = Math.abs(dv) <= SAME_LEVEL_UM ? 1 : Math.min(MOST_SAMPLES, 2 + Math.floor(Math.abs(dv) / SAMPLE_UM));
    const kind = kindAt(sides, (a[0] + b[0]) / 2, (a[1] + b[1]) / 2, !upper);
    for (let k = 0; k < count; k++) {
      const vUm = Math.round(a[1] + (dv * (k + 0.5)) / count);
      const key = `${Math.round(vUm / SAME_LEVEL_UM)}|${upper}|${kind}`;
      const known = merged.get(key);
      if (known) known.lengthUm += Math.abs(du) / count;
      else merged.set(key, { vUm, upper, lengthUm: Math.abs(du) / count, kind });
    }
  }
}
