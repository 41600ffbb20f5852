/**
 * Can a piece be moved in from +v? Its outline swept by `engage` along +v must not reach what stands there.
 *
 * Both bodies are polygons that do not overlap at rest, so the sweep hits exactly where, over some stretch of u, an edge
 * of the obstacle lies above an upper edge of the piece by less than `engage`. Between neighbouring vertices both
 * edges are straight, so their distance is least at an end of such a stretch: it is looked at from the inside of both
 * ends. Exact but for the rounding of a crossing; O(vertices of the piece) for each edge near it, O(1) where it is plain.
 */
import type { Ring, Uv } from "../../geometry/frame.ts";
import type { Piece } from "../bond/record.ts";

export interface Obstacle {
  p: Uv;
  q: Uv;
  what: "wall" | "cutout" | "piece";
  name: string;
}
export interface Hit {
  /** Stretch of u over which it is hit, v of the nearest place of the obstacle, and the room there is. */
  u0: number;
  u1: number;
  v: number;
  room: number;
  what: Obstacle["what"];
  name: string;
}
/** Overlaps below this are touching, um. */
const TOUCH_UM = 10;

/** Hits nearer to each other than this are one, um. */
const NEAR_UM = 100_000;

/** All places where the sweep is hit, by u; hits of the same thing that lie near each other are joined. */
export function sweepHits(piece: Piece, engage: number, obstacles: readonly Obstacle[]): Hit[] {
  const hits: Hit[] = [];
  for (const obstacle of obstacles) {
    const hit = piece.plain ? plainHits(piece, engage, obstacle) : exactHits(piece, engage, obstacle);
    hits.push(...hit);
  }
  hits.sort((a, b) => a.u0 - b.u0 || a.u1 - b.u1 || a.v - b.v);
  const out: Hit[] = [];
  for (const hit of hits) {
    const last = out[out.length - 1];
    if (last && last.what === hit.what && last.name === hit.name && hit.u0 <= last.u1 + NEAR_UM)
      out[out.length - 1] = joined(last, hit);
    else out.push(hit);
  }
  return out;
}

function plainHits(piece: Piece, engage: number, obstacle: Obstacle): Hit[] {
  const { p, q } = obstacle;
  const u0 = Math.max(piece.u0Um, Math.min(p[0], q[0]));
  const u1 = Math.min(piece.u1Um, Math.max(p[0], q[0]));
  const top = piece.v1Um;
  if (u1 - u0 <= TOUCH_UM) return uprightHit(piece, engage, obstacle, () => top);
  const hit = stretchHit(obstacle, engage, u0, u1, heightAt(p, q, u0) - top, heightAt(p, q, u1) - top);
  return hit ? [hit] : [];
}

function exactHits(piece: Piece, engage: number, obstacle: Obstacle): Hit[] {
  const { p, q } = obstacle;
  const u0 = Math.max(piece.u0Um, Math.min(p[0], q[0]));
  const u1 = Math.min(piece.u1Um, Math.max(p[0], q[0]));
  const rings = [piece.region.outer, ...piece.region.holes];
  if (u1 - u0 <= TOUCH_UM) {
    // the thing has a thickness on one side or the other: both sides of its line are looked at
    const tops = (u: number): number[] => uppersOver(rings, u).map((top) => heightAt(top[0], top[1], u));
    const low = Math.min(p[1], q[1]);
    const under = (u: number): number[] =>
      [...tops(u - TOUCH_UM / 2), ...tops(u + TOUCH_UM / 2)].filter((v) => v <= low + TOUCH_UM);
    return uprightHit(piece, engage, obstacle, (u) => Math.max(...under(u)));
  }
  const cuts = [u0, u1];
  for (const ring of rings) for (const [u] of ring) if (u > u0 && u < u1) cuts.push(u);
  cuts.sort((a, b) => a - b);
  const hits: Hit[] = [];
  for (let i = 0; i + 1 < cuts.length; i++) {
    const a = cuts[i]!;
    const b = cuts[i + 1]!;
    if (b - a <= TOUCH_UM) continue;
    for (const top of uppersOver(rings, (a + b) / 2)) {
      const da = heightAt(p, q, a) - heightAt(top[0], top[1], a);
      const db = heightAt(p, q, b) - heightAt(top[0], top[1], b);
      const here = stretchHit(obstacle, engage, a, b, da, db);
      if (here) hits.push(here);
    }
  }
  return hits;
}

/** An edge above an upper edge of the piece over u0 .. u1, by d0 and d1 at its ends: where that is less than `engage`. */
function stretchHit(obstacle: Obstacle, engage: number, u0: number, u1: number, d0: number, d1: number): Hit | null {
  const { p, q, what, name } = obstacle;
  const near = Math.min(d0, d1);
  if (near >= engage - TOUCH_UM || Math.max(d0, d1) < -TOUCH_UM) return null;
  const within = Math.abs(d1 - d0) < 1 ? 1 : Math.min(1, (engage - near) / Math.abs(d1 - d0));
  const from = d0 <= d1 ? u0 : u1 - (u1 - u0) * within;
  const to = d0 <= d1 ? u0 + (u1 - u0) * within : u1;
  if (to - from <= TOUCH_UM) return null;
  const v = Math.round(heightAt(p, q, d0 <= d1 ? u0 : u1));
  return { u0: Math.round(from), u1: Math.round(to), v, room: Math.max(0, Math.round(near)), what, name };
}

/** An edge that stands upright within the piece's length: its lower end may be in the way. */
function uprightHit(piece: Piece, engage: number, obstacle: Obstacle, topAt: (u: number) => number): Hit[] {
  const { p, q, what, name } = obstacle;
  const u = Math.round((p[0] + q[0]) / 2);
  if (u <= piece.u0Um + TOUCH_UM || u >= piece.u1Um - TOUCH_UM) return [];
  const low = Math.min(p[1], q[1]);
  const top = topAt(u);
  if (!(low < top + engage - TOUCH_UM) || Math.max(p[1], q[1]) <= top + TOUCH_UM) return [];
  return [{ u0: u, u1: u, v: low, room: Math.max(0, Math.round(low - top)), what, name }];
}

/** Both hits as one: the tighter of them over the whole stretch. */
function joined(one: Hit, other: Hit): Hit {
  const tight = other.room < one.room ? other : one;
  return { ...tight, u0: Math.min(one.u0, other.u0), u1: Math.max(one.u1, other.u1) };
}

/** Edges that bound the region from above at u, where no vertex lies. */
function uppersOver(rings: readonly Ring[], u: number): [Uv, Uv][] {
  const over: { edge: [Uv, Uv]; v: number }[] = [];
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i++) {
      const p = ring[i]!;
      const q = ring[(i + 1) % ring.length]!;
      if (p[0] > u !== q[0] > u) over.push({ edge: [p, q], v: heightAt(p, q, u) });
    }
  }
  over.sort((s, t) => s.v - t.v);
  return over.filter((_, i) => i % 2 === 1).map((o) => o.edge);
}

function heightAt(p: Uv, q: Uv, u: number): number {
  return p[1] + ((u - p[0]) * (q[1] - p[1])) / (q[0] - p[0]);
}
