import { TOLERANCE } from "../base/tolerances.ts";
import { flattenEdge } from "./arc.ts";
import type { Ring } from "./frame.ts";

/** One edge of a ring to be moved: to the left of its direction by `gap`. Any one unit; bulge as in a job's vertex. */
export interface MovedEdge {
  u: number;
  v: number;
  bulge: number;
  gap: number;
}
type P = [number, number];
/** An edge after it was moved: where it starts and ends, its directions there, and the arc's centre where it is one. */
interface Moved {
  from: P;
  to: P;
  /** Its end already stands on the start of the next edge. */
  met: boolean;
  startDir: P;
  endDir: P;
  centre: P | null;
  radius: number;
  bulge: number;
}

/**
 * The raw curve of a ring whose edges are moved to their left by their own gap: lines stay parallel, arcs stay concentric.
 * Neighbours are carried on to where they meet; nearly in line (sine under 0.001) they step square at the vertex; a mitre
 * outside a reflex corner is cut square beyond twice the larger gap. The curve may cross itself: where an edge vanishes or
 * turns over it forms a loop that runs clockwise, to be removed by a union with positive fill (region.ts).
 *
 * For a hole give its ring clockwise (the field on the left). Result rounded to whole units, orientation kept.
 * Design as in the offsetting of the Clipper library (Johnson): inner corners pass through the vertex itself, so that
 * the loops they leave are always negative; different gaps a side and concentric arcs are ours.
 */
export function offsetRing(edges: readonly MovedEdge[], chord: number): Ring {
  const n = edges.length;
  const moved = edges.map((edge, i) => moveEdge(edge, edges[(i + 1) % n]!, chord));
  meetDirectly(moved, edges);
  const corners = moved.map((here, i) => {
    const vertex = edges[(i + 1) % n]!;
    const points: P[] = [];
    corner(here, moved[(i + 1) % n]!, [vertex.u, vertex.v], edges[i]!.gap, vertex.gap, chord, points);
    return points;
  });
  const out: P[] = [];
  for (let i = 0; i < n; i++) {
    const here = moved[i]!;
    out.push([here.from[0], here.from[1]]);
    flattenEdge(here.from[0], here.from[1], here.to[0], here.to[1], here.bulge, out, chord);
    out.push(...corners[i]!);
  }
  const rounded = out.map(([u, v]) => [Math.round(u) + 0, Math.round(v) + 0] as const);
  return withoutSpikes(rounded);
}

/** Repeated points and there-and-back spikes of no area taken out: a clipper may take such a spike's foot with it. */
function withoutSpikes(points: readonly (readonly [number, number])[]): Ring {
  const out: (readonly [number, number])[] = [];
  const spike = (p: readonly [number, number], q: readonly [number, number], r: readonly [number, number]): boolean => {
    const cross = (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0]);
    return cross === 0 && (q[0] - p[0]) * (r[0] - q[0]) + (q[1] - p[1]) * (r[1] - q[1]) <= 0;
  };
  for (const point of points) {
    while (out.length > 1 && spike(out[out.length - 2]!, out[out.length - 1]!, point)) out.pop();
    out.push(point);
  }
  for (let changed = true; changed && out.length > 2; ) {
    const n = out.length;
    changed = true;
    if (spike(out[n - 2]!, out[n - 1]!, out[0]!)) out.pop();
    else if (spike(out[n - 1]!, out[0]!, out[1]!)) out.shift();
    else changed = false;
  }
  return out;
}

function moveEdge(a: MovedEdge, b: MovedEdge, chord: number): Moved {
  const du = b.u - a.u;
  const dv = b.v - a.v;
  const length = Math.sqrt(du * du + dv * dv) || 1;
  const bulge = (Math.abs(a.bulge) * length) / 2 < chord / 1000 ? 0 : a.bulge;
  if (bulge === 0) {
    const dir: P = [du / length, dv / length];
    const su = -dir[1] * a.gap;
    const sv = dir[0] * a.gap;
    return {
      from: [a.u + su, a.v + sv],
      to: [b.u + su, b.v + sv],
      met: false,
      startDir: dir,
      endDir: dir,
      centre: null,
      radius: 0,
      bulge: 0,
    };
  }
  // Centre: left of the chord's middle by chord (1 - b^2) / 4b (negative bulge: to the right).
  const away = (1 - bulge * bulge) / (4 * bulge);
  const centre: P = [(a.u + b.u) / 2 - dv * away, (a.v + b.v) / 2 + du * away];
  const ru = a.u - centre[0];
  const rv = a.v - centre[1];
  const radius = Math.sqrt(ru * ru + rv * rv);
  const sense = bulge > 0 ? 1 : -1;
  const scale = (radius - sense * a.gap) / radius;
  const eu = b.u - centre[0];
  const ev = b.v - centre[1];
  return {
    from: [centre[0] + ru * scale, centre[1] + rv * scale],
    to: [centre[0] + eu * scale, centre[1] + ev * scale],
    met: false,
    startDir: [(-rv / radius) * sense, (ru / radius) * sense],
    endDir: [(-ev / radius) * sense, (eu / radius) * sense],
    centre,
    radius: Math.abs(radius * scale),
    bulge,
  };
}

/**
 * Straight neighbours that keep their sense when carried on or cut back to their meeting point end there. Those that would
 * turn over, reflex mitres that run too far and arcs are left to `corner`.
 */
function meetDirectly(moved: Moved[], edges: readonly MovedEdge[]): void {
  const n = moved.length;
  const meets = moved.map((a, i): P | null => {
    const b = moved[(i + 1) % n]!;
    if (a.centre !== null || b.centre !== null) return null;
    const sine = a.endDir[0] * b.startDir[1] - a.endDir[1] * b.startDir[0];
    if (Math.abs(sine) < TOLERANCE.inLineSine) return null;
    const meet = lineLine(a, b)[0] ?? null;
    if (meet === null || sine > 0) return meet;
    if (isBehind(a, b, meet))
      return ahead(a.from, a.startDir, meet) > 0 && ahead(meet, b.startDir, b.to) > 0 ? meet : null;
    const vertex = edges[(i + 1) % n]!;
    const far = TOLERANCE.mitreFactor * Math.max(edges[i]!.gap, vertex.gap);
    return distance2(meet, [vertex.u, vertex.v]) > far * far * (1 + 1e-9) ? null : meet;
  });
  const keeps = moved.map((a, i) => {
    const from = meets[(i + n - 1) % n] ?? a.from;
    const to = meets[i] ?? a.to;
    return ahead(from, a.startDir, to) > 0;
  });
  for (let i = 0; i < n; i++) {
    const k = (i + 1) % n;
    const meet = meets[i];
    if (!meet || !keeps[i] || !keeps[k]) continue;
    moved[i]!.to = [meet[0], meet[1]];
    moved[k]!.from = [meet[0], meet[1]];
    moved[i]!.met = true;
  }
}

/**
 * Appends what joins the end of one moved edge to the start of the next. A straight edge carried on to the meeting point is
 * made longer instead, so that no needless point stays on it.
 */
function corner(a: Moved, b: Moved, vertex: P, gapA: number, gapB: number, chord: number, out: P[]): void {
  if (a.met) return;
  const ta = a.endDir;
  const tb = b.startDir;
  const sine = ta[0] * tb[1] - ta[1] * tb[0];
  if (Math.abs(sine) < TOLERANCE.inLineSine) return;
  const meet = nearestMeeting(a, b, vertex);
  if (sine < 0) {
    const far = TOLERANCE.mitreFactor * Math.max(gapA, gapB);
    if (far === 0) return;
    // Nothing sticks out to be cut; where a side is too short for its meeting point, each keeps its own gap to its end.
    if (meet !== null && a.centre === null && b.centre === null && isBehind(a, b, meet)) return;
    if (a.centre !== null || b.centre !== null) {
      // Where an arc meets another side, what lies behind is judged by the tangents: the circles may meet far away or nowhere.
      const tangent = lineLine(a, b)[0] ?? null;
      if (tangent !== null && isBehind(a, b, tangent)) {
        const back = ahead(a.to, ta, tangent) < 0 && a.centre === null && ahead(a.from, ta, tangent) > 0;
        const on = ahead(b.from, tb, tangent) > 0 && b.centre === null && ahead(b.to, tb, tangent) < 0;
        if (back) a.to = [tangent[0], tangent[1]];
        if (on) b.from = [tangent[0], tangent[1]];
        return;
      }
    }
    const out2 = meet === null ? Number.POSITIVE_INFINITY : distance2(meet, vertex);
    if (out2 > far * far * (1 + 1e-9)) {
      cutSquare(a, b, gapA, gapB, far, out);
      return;
    }
  }
  // Carried on to the meeting point where that lies beyond the end; otherwise a loop or a spike of no area is left.
  if (meet !== null && ahead(a.to, ta, meet) > 0) {
    if (a.centre === null) a.to = [meet[0], meet[1]];
    else run(a, a.to, meet, chord, out);
  }
  if (sine > 0) out.push([vertex[0], vertex[1]]);
  if (meet !== null && ahead(b.from, tb, meet) < 0) {
    if (b.centre === null) {
      b.from = [meet[0], meet[1]];
    } else {
      out.push([meet[0], meet[1]]);
      run(b, meet, b.from, chord, out);
    }
  }
}

/** From p to q along the edge's own line or circle. */
function run(edge: Moved, p: P, q: P, chord: number, out: P[]): void {
  let bulge = 0;
  if (edge.centre !== null && edge.radius > 0) {
    const half = Math.sqrt(distance2(p, q)) / 2 / edge.radius;
    // bulge = tan(angle / 4) of the short arc over this chord.
    const s = Math.min(half, 1);
    const c = Math.sqrt(1 - s * s);
    const tanHalf = s / (1 + c);
    bulge = (edge.bulge > 0 ? 1 : -1) * (tanHalf / (1 + Math.sqrt(1 + tanHalf * tanHalf)));
  }
  flattenEdge(p[0], p[1], q[0], q[1], bulge, out, chord);
}

function cutSquare(a: Moved, b: Moved, gapA: number, gapB: number, far: number, out: P[]): void {
  const ta = a.endDir;
  const tb = b.startDir;
  let bu = -ta[1] - tb[1];
  let bv = ta[0] + tb[0];
  let length = Math.sqrt(bu * bu + bv * bv);
  if (length < 1e-6) {
    bu = ta[0];
    bv = ta[1];
    length = 1;
  }
  bu /= length;
  bv /= length;
  const sa = far - gapA * (-ta[1] * bu + ta[0] * bv);
  const sb = far - gapB * (-tb[1] * bu + tb[0] * bv);
  const ca = ta[0] * bu + ta[1] * bv;
  const cb = -(tb[0] * bu + tb[1] * bv);
  if (ca > 1e-9) out.push([a.to[0] + (ta[0] * sa) / ca, a.to[1] + (ta[1] * sa) / ca]);
  if (cb > 1e-9) out.push([b.from[0] - (tb[0] * sb) / cb, b.from[1] - (tb[1] * sb) / cb]);
}

function nearestMeeting(a: Moved, b: Moved, near: P): P | null {
  const meetings =
    a.centre === null
      ? b.centre === null
        ? lineLine(a, b)
        : lineCircle(a.to, a.endDir, b.centre, b.radius)
      : b.centre === null
        ? lineCircle(b.from, b.startDir, a.centre, a.radius)
        : circleCircle(a.centre, a.radius, b.centre, b.radius);
  let best: P | null = null;
  for (const p of meetings) if (best === null || distance2(p, near) < distance2(best, near)) best = p;
  return best;
}

function lineLine(a: Moved, b: Moved): P[] {
  const cross = a.endDir[0] * b.startDir[1] - a.endDir[1] * b.startDir[0];
  if (Math.abs(cross) < 1e-12) return [];
  const t = ((b.from[0] - a.to[0]) * b.startDir[1] - (b.from[1] - a.to[1]) * b.startDir[0]) / cross;
  return [[a.to[0] + a.endDir[0] * t, a.to[1] + a.endDir[1] * t]];
}

function lineCircle(p: P, dir: P, centre: P, radius: number): P[] {
  const along = (centre[0] - p[0]) * dir[0] + (centre[1] - p[1]) * dir[1];
  const foot: P = [p[0] + dir[0] * along, p[1] + dir[1] * along];
  const rest = radius * radius - distance2(foot, centre);
  if (rest < 0) return [];
  const s = Math.sqrt(rest);
  return [
    [foot[0] - dir[0] * s, foot[1] - dir[1] * s],
    [foot[0] + dir[0] * s, foot[1] + dir[1] * s],
  ];
}

function circleCircle(c1: P, r1: number, c2: P, r2: number): P[] {
  const d2 = distance2(c1, c2);
  const d = Math.sqrt(d2);
  if (d < 1e-9) return [];
  const along = (d2 + r1 * r1 - r2 * r2) / (2 * d);
  const rest = r1 * r1 - along * along;
  if (rest < 0) return [];
  const h = Math.sqrt(rest);
  const eu = (c2[0] - c1[0]) / d;
  const ev = (c2[1] - c1[1]) / d;
  const mu = c1[0] + eu * along;
  const mv = c1[1] + ev * along;
  return [
    [mu - ev * h, mv + eu * h],
    [mu + ev * h, mv - eu * h],
  ];
}

/** One gap is so much wider that the moved lines meet behind the end of one of them. */
function isBehind(a: Moved, b: Moved, meet: P): boolean {
  return ahead(a.to, a.endDir, meet) < 0 || ahead(b.from, b.startDir, meet) > 0;
}

function ahead(from: P, dir: P, p: P): number {
  return (p[0] - from[0]) * dir[0] + (p[1] - from[1]) * dir[1];
}

function distance2(a: P, b: P): number {
  return (a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]);
}
