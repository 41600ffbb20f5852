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

/** The tightest hit among the obstacles, its stretch joined over all hits of the same thing; null where there is room. */
export function sweepHit(piece: Piece, engage: number, obstacles: readonly Obstacle[]): Hit | null {
  let best: Hit | null = null;
  for (const obstacle of obstacles) {
    const hit = piece.plain ? plainHit(piece, engage, obstacle) : exactHit(piece, engage, obstacle);
    if (!hit) continue;
    if (!best) best = hit;
    else if (hit.what === best.what && hit.name === best.name) {
      best = joined(best, hit);
    } else if (hit.room < best.room) best = hit;
  }
  return best;
}

function plainHit(piece: Piece, engage: number, { p, q, what, name }: Obstacle): Hit | null {
  const u0 = Math.max(piece.u0Um, Math.min(p[0], q[0]));
  const u1 = Math.min(piece.u1Um, Math.max(p[0], q[0]));
  if (u1 - u0 <= TOUCH_UM) return null;
  const v0 = heightAt(p, q, u0);
  const v1 = heightAt(p, q, u1);
  const low = Math.min(v0, v1);
  const top = piece.v1Um;
  if (low >= top + engage - TOUCH_UM || Math.max(v0, v1) < top - TOUCH_UM) return null;
  return { u0, u1, v: Math.round(low), room: Math.max(0, Math.round(low - top)), what, name };
}

function exactHit(piece: Piece, engage: number, { p, q, what, name }: Obstacle): Hit | null {
  const u0 = Math.max(piece.u0Um, Math.min(p[0], q[0]));
  const u1 = Math.min(piece.u1Um, Math.max(p[0], q[0]));
  if (u1 - u0 <= TOUCH_UM) return null;
  const rings = [piece.region.outer, ...piece.region.holes];
  const cuts = [u0, u1];
  for (const ring of rings) for (const [u] of ring) if (u > u0 && u < u1) cuts.push(u);
  cuts.sort((a, b) => a - b);
  let hit: Hit | null = null;
  for (let i = 0; i + 1 < cuts.length; i++) {
    const a = cuts[i]!;
    const b = cuts[i + 1]!;
    if (b - a <= TOUCH_UM) continue;
    for (const top of uppersOver(rings, a, b)) {
      const da = heightAt(p, q, a) - heightAt(top[0], top[1], a);
      const db = heightAt(p, q, b) - heightAt(top[0], top[1], b);
      const near = Math.min(da, db);
      if (near >= engage - TOUCH_UM || Math.max(da, db) < -TOUCH_UM) continue;
      const v = Math.round(heightAt(p, q, da <= db ? a : b));
      const room = Math.max(0, Math.round(near));
      const here: Hit = { u0: a, u1: b, v, room, what, name };
      hit = hit === null ? here : joined(hit, here);
    }
  }
  return hit;
}

/** Both hits as one: the tighter of them over the whole stretch. */
function joined(one: Hit, other: Hit): Hit {
  const tight = other.room < one.room ? other : one;
  return { ...tight, u0: Math.min(one.u0, other.u0), u1: Math.max(one.u1, other.u1) };
}

/** Edges that bound the region from above over the stretch a .. b, in which no vertex lies. */
function uppersOver(rings: readonly Ring[], a: number, b: number): [Uv, Uv][] {
  const over: { edge: [Uv, Uv]; v: number }[] = [];
  const middle = (a + b) / 2;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i++) {
      const p = ring[i]!;
      const q = ring[(i + 1) % ring.length]!;
      if (Math.min(p[0], q[0]) < middle && Math.max(p[0], q[0]) > middle)
        over.push({ edge: [p, q], v: heightAt(p, q, middle) });
    }
  }
  over.sort((s, t) => s.v - t.v);
  return over.filter((_, i) => i % 2 === 1).map((o) => o.edge);
}

function heightAt(p: Uv, q: Uv, u: number): number {
  return p[1] + ((u - p[0]) * (q[1] - p[1])) / (q[0] - p[0]);
}
