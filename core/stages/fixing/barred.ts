/**
 * Where along a line of constant v no anchor may stand, and why.
 * Exact for the hole positions (the anchor and `clips.fixing.holes`): no-drill areas, outside of the slab, nearer than
 * `slabEdge` to a free slab edge, nearer than `jointEdge` to a base joint. A clip's body (one clip length about the
 * anchor, along u) must not reach into a cut-out as it stands, nor through a wall, door or kerb.
 * Everything is sorted into bands of v once, so that a line looks only at what can touch it.
 */
import { toUm } from "../../base/units.ts";
import type { Ring, Uv } from "../../geometry/frame.ts";
import type { Job } from "../../job/job.ts";
import type { SetoutRecord, SiteUv } from "../setout/record.ts";
import type { ClipRules } from "./rules.ts";

export type Why = "noDrill" | "slabEdge" | "baseJoint" | "cutout" | "wall" | "offSlab";
export interface Zone {
  /** Closed, whole micrometres. */
  lo: number;
  hi: number;
  why: Why;
  name: string;
}
export interface Barriers {
  site: SiteUv;
  rules: ClipRules;
  bandUm: number;
  bands: Map<number, Segment[]>;
  /** Rings tested as a whole, with their extent in v. */
  rings: { ring: Ring; v0: number; v1: number; why: "noDrill" | "cutout"; name: string }[];
  slab: { ring: Ring; v0: number; v1: number } | null;
}
interface Segment {
  p: Uv;
  q: Uv;
  why: "slabEdge" | "baseJoint" | "wall";
}
/** Kept clear of every limit, so that rounding on paper cannot break it, um. */
const MARGIN_UM = 5;

export function barriersOf(job: Job, setout: SetoutRecord, rules: ClipRules): Barriers {
  const site = setout.site;
  const out: Barriers = {
    site,
    rules,
    bandUm: Math.max(setout.boardWidthUm, 1),
    bands: new Map(),
    rings: [],
    slab: null,
  };
  for (const area of site.noDrill) addRing(out, area.ring, "noDrill", area.name);
  for (const cutout of site.cutouts) addRing(out, cutout.ring, "cutout", cutout.name);
  site.edges.forEach((edge, i) => {
    if (edge.kind !== "wall" && edge.kind !== "door" && edge.kind !== "kerb") return;
    addSegment(
      out,
      { p: site.outline[i]!, q: site.outline[(i + 1) % site.outline.length]!, why: "wall" },
      toUm(job.clips.wallReach),
    );
  });
  for (const line of site.baseJoints) {
    for (let i = 0; i + 1 < line.length; i++)
      addSegment(out, { p: line[i]!, q: line[i + 1]!, why: "baseJoint" }, rules.jointEdge);
  }
  if (site.slab) {
    const [v0, v1] = rangeOf(site.slab);
    out.slab = { ring: site.slab, v0, v1 };
    for (const [p, q] of freeSlabEdges(site, toUm(job.clips.wallReach)))
      addSegment(out, { p, q, why: "slabEdge" }, rules.slabEdge);
  }
  return out;
}

/** Barred stretches of the line at v for an anchor with its body along u; unsorted, may overlap. `body` false: holes only. */
export function barredAlong(barriers: Barriers, v: number, u0: number, u1: number, body = true): Zone[] {
  const { rules } = barriers;
  const zones: Zone[] = [];
  const push = (lo: number, hi: number, why: Why, name: string): void => {
    const zone = { lo: Math.floor(lo) - MARGIN_UM, hi: Math.ceil(hi) + MARGIN_UM, why, name };
    if (zone.hi >= u0 && zone.lo <= u1) zones.push(zone);
  };
  const half = body ? rules.length / 2 : 0;
  for (const [dx, dy] of rules.holes) {
    const at = v + dy;
    for (const area of barriers.rings) {
      if (area.why !== "noDrill" || at < area.v0 || at > area.v1) continue;
      for (const [lo, hi] of insideAlong(area.ring, at)) push(lo - dx, hi - dx, "noDrill", area.name);
    }
    for (const s of segmentsNear(barriers, at)) {
      if (s.why === "wall") continue;
      const reach = s.why === "slabEdge" ? rules.slabEdge : rules.jointEdge;
      const hit = nearAlong(s.p, s.q, reach, at);
      if (hit) push(hit[0] - dx, hit[1] - dx, s.why, "");
    }
    if (barriers.slab) {
      const inside = at < barriers.slab.v0 || at > barriers.slab.v1 ? [] : insideAlong(barriers.slab.ring, at);
      let from = u0 - 1;
      for (const [lo, hi] of inside) {
        if (lo > from) push(from - dx, lo - dx, "offSlab", "");
        from = hi;
      }
      if (from < u1 + 1) push(from - dx, u1 + 1 - dx, "offSlab", "");
    }
  }
  for (const area of barriers.rings) {
    if (area.why !== "cutout" || v < area.v0 || v > area.v1) continue;
    for (const [lo, hi] of insideAlong(area.ring, v))
      push(lo - half + MARGIN_UM, hi + half - MARGIN_UM, "cutout", area.name);
  }
  for (const s of segmentsNear(barriers, v)) {
    if (s.why !== "wall") continue;
    const hit = nearAlong(s.p, s.q, 0, v);
    if (hit) push(hit[0] - half + MARGIN_UM, hit[1] + half - MARGIN_UM, "wall", "");
  }
  return zones;
}

/** Distance from a place to the nearest wall, door or kerb within `reach` (at most `clips.wallReach`), um; null where none. */
export function wallWithin(barriers: Barriers, u: number, v: number, reach: number): number | null {
  let best = reach;
  let found = false;
  for (const { p, q, why } of segmentsNear(barriers, v)) {
    if (why !== "wall") continue;
    const away = distanceTo([u, v], p, q);
    if (away >= best) continue;
    best = away;
    found = true;
  }
  return found ? best : null;
}

/** Distance of a place from a segment. */
export function distanceTo(at: Uv, a: Uv, b: Uv): number {
  const du = b[0] - a[0];
  const dv = b[1] - a[1];
  const l2 = du * du + dv * dv;
  const t = l2 === 0 ? 0 : Math.min(1, Math.max(0, ((at[0] - a[0]) * du + (at[1] - a[1]) * dv) / l2));
  const eu = at[0] - a[0] - du * t;
  const ev = at[1] - a[1] - dv * t;
  return Math.sqrt(eu * eu + ev * ev);
}

/** Stretches of the line at v that lie inside a ring, by u. */
export function insideAlong(ring: Ring, v: number): [number, number][] {
  const cuts: number[] = [];
  for (let i = 0; i < ring.length; i++) {
    const p = ring[i]!;
    const q = ring[(i + 1) % ring.length]!;
    if (p[1] > v === q[1] > v) continue;
    cuts.push(p[0] + ((v - p[1]) * (q[0] - p[0])) / (q[1] - p[1]));
  }
  cuts.sort((a, b) => a - b);
  const out: [number, number][] = [];
  for (let i = 0; i + 1 < cuts.length; i += 2) out.push([cuts[i]!, cuts[i + 1]!]);
  return out;
}

/** The stretch of the line at v nearer than `reach` to the segment: one interval, as both are convex; null where none. */
export function nearAlong(p: Uv, q: Uv, reach: number, v: number): [number, number] | null {
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.NEGATIVE_INFINITY;
  const take = (u: number): void => {
    lo = Math.min(lo, u);
    hi = Math.max(hi, u);
  };
  for (const end of [p, q]) {
    const dv = v - end[1];
    if (Math.abs(dv) > reach) continue;
    const s = Math.sqrt(reach * reach - dv * dv);
    take(end[0] - s);
    take(end[0] + s);
  }
  const du = q[0] - p[0];
  const dv = q[1] - p[1];
  const length = Math.sqrt(du * du + dv * dv);
  if (length > 0) {
    const nu = (-dv / length) * reach;
    const nv = (du / length) * reach;
    const corners: Uv[] = [
      [p[0] + nu, p[1] + nv],
      [q[0] + nu, q[1] + nv],
      [q[0] - nu, q[1] - nv],
      [p[0] - nu, p[1] - nv],
    ];
    for (let i = 0; i < 4; i++) {
      const a = corners[i]!;
      const b = corners[(i + 1) % 4]!;
      if ((a[1] < v && b[1] < v) || (a[1] > v && b[1] > v)) continue;
      if (a[1] === b[1]) {
        take(a[0]);
        take(b[0]);
      } else take(a[0] + ((v - a[1]) * (b[0] - a[0])) / (b[1] - a[1]));
    }
  }
  return lo <= hi ? [lo, hi] : null;
}

/**
 * Parts of the slab's edge along which no wall or door stands within `reach`. A place counts as along a wall only where
 * its perpendicular foot lies on that wall and both run nearly the same way: round a corner an open edge stays free.
 */
export function freeSlabEdges(site: SiteUv, reach: number): [Uv, Uv][] {
  const slab = site.slab!;
  const walls: [Uv, Uv][] = [];
  site.edges.forEach((edge, i) => {
    if (edge.kind === "wall" || edge.kind === "door")
      walls.push([site.outline[i]!, site.outline[(i + 1) % site.outline.length]!]);
  });
  const out: [Uv, Uv][] = [];
  for (let i = 0; i < slab.length; i++) {
    const p = slab[i]!;
    const q = slab[(i + 1) % slab.length]!;
    const covered: [number, number][] = [];
    for (const wall of walls) {
      const part = alongWall(p, q, wall, reach);
      if (part) covered.push(part);
    }
    covered.sort((a, b) => a[0] - b[0]);
    let from = 0;
    for (const [t0, t1] of covered) {
      if (t0 > from) out.push([between(p, q, from), between(p, q, t0)]);
      from = Math.max(from, t1);
    }
    if (from < 1) out.push([between(p, q, from), q]);
  }
  return out;
}

/** The part of p-q (as fractions) that runs along the wall within reach; null where none. */
function alongWall(p: Uv, q: Uv, [a, b]: [Uv, Uv], reach: number): [number, number] | null {
  const du = q[0] - p[0];
  const dv = q[1] - p[1];
  const wu = b[0] - a[0];
  const wv = b[1] - a[1];
  const length = Math.sqrt(du * du + dv * dv);
  const wall = Math.sqrt(wu * wu + wv * wv);
  if (length === 0 || wall === 0 || Math.abs(du * wv - dv * wu) > 0.2 * length * wall) return null;
  const along = (c: Uv): number => ((c[0] - p[0]) * du + (c[1] - p[1]) * dv) / (length * length);
  const t0 = Math.max(0, Math.min(along(a), along(b)));
  const t1 = Math.min(1, Math.max(along(a), along(b)));
  if (t0 >= t1) return null;
  const offset = (t: number): number => {
    const at = between(p, q, t);
    return ((at[0] - a[0]) * wv - (at[1] - a[1]) * wu) / wall;
  };
  const [d0, d1] = [offset(t0), offset(t1)];
  if (Math.abs(d0 - d1) < 1e-9) return Math.abs(d0) <= reach ? [t0, t1] : null;
  const cross = [(-reach - d0) / (d1 - d0), (reach - d0) / (d1 - d0)].sort((x, y) => x - y) as [number, number];
  const from = t0 + (t1 - t0) * Math.max(0, cross[0]);
  const to = t0 + (t1 - t0) * Math.min(1, cross[1]);
  return from < to ? [from, to] : null;
}

function between(p: Uv, q: Uv, t: number): Uv {
  return t <= 0 ? p : t >= 1 ? q : [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
}

function addRing(out: Barriers, ring: Ring, why: "noDrill" | "cutout", name: string): void {
  const [v0, v1] = rangeOf(ring);
  out.rings.push({ ring, v0, v1, why, name });
}

function addSegment(out: Barriers, segment: Segment, reach: number): void {
  const v0 = Math.min(segment.p[1], segment.q[1]) - reach;
  const v1 = Math.max(segment.p[1], segment.q[1]) + reach;
  for (let band = Math.floor(v0 / out.bandUm); band <= Math.floor(v1 / out.bandUm); band++) {
    const list = out.bands.get(band);
    if (list) list.push(segment);
    else out.bands.set(band, [segment]);
  }
}

function segmentsNear(barriers: Barriers, v: number): readonly Segment[] {
  return barriers.bands.get(Math.floor(v / barriers.bandUm)) ?? [];
}

function rangeOf(ring: Ring): [number, number] {
  let v0 = Number.POSITIVE_INFINITY;
  let v1 = Number.NEGATIVE_INFINITY;
  for (const [, v] of ring) {
    v0 = Math.min(v0, v);
    v1 = Math.max(v1, v);
  }
  return [v0, v1];
}
