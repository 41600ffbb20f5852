import { type Trapezoid, trapezoids } from "../../geometry/chords.ts";
import type { Region, Ring, Uv } from "../../geometry/frame.ts";
import { type Box, boxOf, distanceToRing } from "../../geometry/ring.ts";

/** A cut-out grown by its gap, as the field sees it. */
export interface Grown {
  index: number;
  name: string;
  height: "tall" | "flush" | "removable";
  ring: Ring;
  box: Box;
}
export type Beyond = "board" | "point" | "blunt";
/** A stretch of a span, between two levels of u (of v where `across`), all of it thinner than some limit. */
export interface Stretch {
  from: number;
  to: number;
  /** Thinnest place, um. */
  least: number;
  greatest: number;
  parts: Trapezoid[];
  /** What lies beyond its ends: more board, a point (the board pinches out), or a blunt end. */
  ends: [Beyond, Beyond];
  /** The cut-out beside it, where one bounds it. */
  beside: Grown | null;
}

/** A cut-out's edge as the field's clipper returns it may be this far from the grown ring, um. */
const SAME_LINE_UM = 3;

/**
 * Stretches of a span beside a cut-out that are thinner than `limit`, measured across the row: bridges, with board at both
 * ends, and tongues longer than wide. Where board merely runs out to a point beside a slanting or round cut-out, that is
 * the nature of the cut and not a web.
 */
export function websOf(region: Region, nearby: readonly Grown[], limit: number): Stretch[] {
  const slabs = trapezoids(region);
  const side = sideFinder(nearby);
  const found = stretches(slabs, limit, (t) => side(t.below) ?? side(t.above));
  return found.filter((s) => isBridge(s) || (!s.ends.includes("point") && s.to - s.from > s.greatest));
}

/** Stretches beside a cut-out that run out to a point: undercut corners of what is slanting or round. */
export function wedgesOf(region: Region, nearby: readonly Grown[], limit: number): Stretch[] {
  const side = sideFinder(nearby);
  const found = stretches(trapezoids(region), limit, (t) => side(t.below) ?? side(t.above));
  return found.filter((s) => s.ends.includes("point"));
}

export function isBridge(s: Stretch): boolean {
  return s.ends[0] === "board" && s.ends[1] === "board";
}

/** Stretches thinner than `limit` that are longer than `longest`, wherever they lie. */
export function thinStretches(region: Region, limit: number, longest: number): Stretch[] {
  const found = stretches(trapezoids(region), limit, () => undefined);
  return found.filter((s) => s.to - s.from > longest);
}

/** Fingers between a cut-out and the end of a span, thinner than `limit` along the row. The region's axes are swapped. */
export function fingersOf(swapped: Region, nearby: readonly Grown[], limit: number): Stretch[] {
  const turned = nearby.map((g) => {
    const ring = swapRing(g.ring);
    return { ...g, ring, box: boxOf(ring) };
  });
  return websOf(swapped, turned, limit);
}

export function swapRing(ring: Ring): Ring {
  return ring.map(([u, v]) => [v, u] as const).reverse();
}

type Edge = readonly [Uv, Uv];

/** Which cut-out an edge of the span belongs to; remembered by edge. */
function sideFinder(nearby: readonly Grown[]): (edge: Edge) => Grown | null {
  const known = new Map<Edge, Grown | null>();
  return (edge) => {
    const before = known.get(edge);
    if (before !== undefined) return before;
    const u = (edge[0][0] + edge[1][0]) / 2;
    const v = (edge[0][1] + edge[1][1]) / 2;
    let found: Grown | null = null;
    for (const g of nearby) {
      const { box } = g;
      if (u < box.u0 - SAME_LINE_UM || u > box.u1 + SAME_LINE_UM) continue;
      if (v < box.v0 - SAME_LINE_UM || v > box.v1 + SAME_LINE_UM) continue;
      if (distanceToRing(g.ring, u, v) <= SAME_LINE_UM) {
        found = g;
        break;
      }
    }
    known.set(edge, found);
    return found;
  };
}

/** Joins thin parts of neighbouring trapezoids into stretches. `beside` returning null leaves a trapezoid out. */
function stretches(slabs: Trapezoid[][], limit: number, beside: (t: Trapezoid) => Grown | null | undefined): Stretch[] {
  const out: Stretch[] = [];
  let open: Stretch[] = [];
  for (let k = 0; k < slabs.length; k++) {
    const slab = slabs[k]!;
    const now: Stretch[] = [];
    for (const t of slab) {
      const g = beside(t);
      if (g === null) continue;
      const part = thinPart(t, limit);
      if (part === null) continue;
      const before = open.find(
        (s) => s.to === part.u0 && (s.beside ?? null) === (g ?? null) && touches(s.parts[s.parts.length - 1]!, part),
      );
      const thick0 = part.high0 - part.low0;
      const thick1 = part.high1 - part.low1;
      if (before) {
        before.to = part.u1;
        before.parts.push(part);
        before.least = Math.min(before.least, thick0, thick1);
        before.greatest = Math.max(before.greatest, thick0, thick1);
        before.ends[1] = beyondEnd(t, part, slabs[k + 1]);
        now.push(before);
      } else {
        const fresh: Stretch = {
          from: part.u0,
          to: part.u1,
          least: Math.min(thick0, thick1),
          greatest: Math.max(thick0, thick1),
          parts: [part],
          ends: [beyondStart(t, part, slabs[k - 1]), beyondEnd(t, part, slabs[k + 1])],
          beside: g ?? null,
        };
        out.push(fresh);
        now.push(fresh);
      }
    }
    open = now;
  }
  return out;
}

/** An end this thin is a point, um. */
const POINT_UM = 1000;

function beyondStart(t: Trapezoid, part: Trapezoid, before: readonly Trapezoid[] | undefined): Beyond {
  if (part.u0 > t.u0) return "board";
  if (before?.some((b) => Math.min(b.high1, t.high0) > Math.max(b.low1, t.low0) + 1)) return "board";
  return t.high0 - t.low0 < POINT_UM ? "point" : "blunt";
}

function beyondEnd(t: Trapezoid, part: Trapezoid, after: readonly Trapezoid[] | undefined): Beyond {
  if (part.u1 < t.u1) return "board";
  if (after?.some((b) => Math.min(b.high0, t.high1) > Math.max(b.low0, t.low1) + 1)) return "board";
  return t.high1 - t.low1 < POINT_UM ? "point" : "blunt";
}

function touches(a: Trapezoid, b: Trapezoid): boolean {
  return Math.min(a.high1, b.high0) >= Math.max(a.low1, b.low0) - 1;
}

/** The part of a trapezoid thinner than the limit, or null. Ends in whole micrometres. */
function thinPart(t: Trapezoid, limit: number): Trapezoid | null {
  const a = t.high0 - t.low0;
  const b = t.high1 - t.low1;
  if (a >= limit && b >= limit) return null;
  if (a < limit && b < limit) return t;
  const turn = Math.round(t.u0 + ((t.u1 - t.u0) * (limit - a)) / (b - a));
  const part = a < limit ? between(t, t.u0, turn) : between(t, turn, t.u1);
  return part.u1 > part.u0 ? part : null;
}

export function between(t: Trapezoid, u0: number, u1: number): Trapezoid {
  const at = (from: number, to: number, u: number) => from + ((to - from) * (u - t.u0)) / (t.u1 - t.u0);
  return {
    ...t,
    u0,
    u1,
    low0: at(t.low0, t.low1, u0),
    low1: at(t.low0, t.low1, u1),
    high0: at(t.high0, t.high1, u0),
    high1: at(t.high0, t.high1, u1),
  };
}
