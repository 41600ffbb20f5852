/**
 * Where the base may be drilled and a clip may lie, asked point by point: no-drill areas, the slab and its free edges,
 * base joints; and what stands in a clip's way: cut-outs as they stand, walls, doors and kerbs. The planner works with
 * barred stretches of lines; the judge asks of places, and where room matters it tries every half millimetre.
 */
import { TOLERANCE } from "../base/tolerances.ts";
import { pointsOf, walkRing } from "./curve.ts";
import { turned } from "./field.ts";
import { type Bounds, boundsOf, insidePaths, type Path, toSegment } from "./polygons.ts";
import { type Scene, um } from "./scene.ts";
import { intoRows } from "./turn.ts";

type Segment = readonly [au: number, av: number, bu: number, bv: number];

export interface Zones {
  holes: [number, number][];
  /** Rings as their edges, of which a line needs only those it meets. */
  noDrill: { name: string; edges: Segment[]; bounds: Bounds }[];
  baseJoints: Segment[];
  slab: Segment[] | null;
  freeEdges: Segment[];
  standing: Segment[];
  cutouts: { ring: Path; bounds: Bounds }[];
  half: number;
  jointEdge: number;
  slabEdge: number;
}

/** Distances are met to the file's rounding, um. */
const SLACK_UM = 5;
/** Sine up to which a wall runs along an edge of the slab. */
const NEARLY_ALONG = 0.2;
const EDGE_STEP_UM = 2000;

export function zonesOf(scene: Scene): Zones {
  const { job, survey, turn } = scene;
  const clips = job.clips;
  const ring = (vertices: readonly (readonly [number, number, number])[]): Path =>
    turned(pointsOf(walkRing(vertices)), turn);
  const holes: [number, number][] = [[0, 0]];
  for (const [x, y] of clips.fixing.holes) if (x !== 0 || y !== 0) holes.push([um(x), um(y)]);
  const walls: Segment[] = [];
  const standing: Segment[] = [];
  const sides = walkRing(survey.outline);
  sides.forEach((side, i) => {
    const { kind } = survey.sides[i]!;
    for (let k = 1; k < side.xs.length; k++) {
      const a = intoRows(turn, side.xs[k - 1]!, side.ys[k - 1]!);
      const b = intoRows(turn, side.xs[k]!, side.ys[k]!);
      const segment: Segment = [a[0], a[1], b[0], b[1]];
      if (kind === "wall" || kind === "door") walls.push(segment);
      if (kind === "wall" || kind === "door" || kind === "kerb") standing.push(segment);
    }
  });
  const baseJoints: Segment[] = [];
  for (const line of survey.baseJoints)
    for (let k = 1; k < line.length; k++) {
      const a = intoRows(turn, line[k - 1]![0], line[k - 1]![1]);
      const b = intoRows(turn, line[k]![0], line[k]![1]);
      baseJoints.push([a[0], a[1], b[0], b[1]]);
    }
  const slab = survey.slab ? ring(survey.slab) : null;
  return {
    holes,
    noDrill: survey.noDrill.map((area) => {
      const path = ring(area.ring);
      return { name: area.name, edges: edgesOf(path), bounds: boundsOf([path]) };
    }),
    baseJoints,
    slab: slab && edgesOf(slab),
    freeEdges: slab ? freeEdges(slab, walls, um(clips.wallReach)) : [],
    standing,
    cutouts: scene.field.cutouts.map((c) => ({ ring: c.raw, bounds: boundsOf([c.raw]) })),
    half: um(clips.length) / 2,
    jointEdge: um(clips.jointEdge),
    // An edge that curves may be drawn in chords.
    slabEdge: um(clips.slabEdge) - (survey.slab?.some((vertex) => vertex[2] !== 0) ? TOLERANCE.chordMm * 1000 : 0),
  };
}

/** The no-drill area a hole at this place would stand in. */
export function noDrillAt(zones: Zones, u: number, v: number): string | null {
  for (const area of zones.noDrill) {
    const b = area.bounds;
    if (u < b.u0 || u > b.u1 || v < b.v0 || v > b.v1 || !insideEdges(area.edges, u, v)) continue;
    return area.name;
  }
  return null;
}

/** Nearest base joint nearer than allowed, um; null where none is. */
export function baseJointAt(zones: Zones, u: number, v: number): number | null {
  let near = Infinity;
  for (const [au, av, bu, bv] of zones.baseJoints) {
    if (u < Math.min(au, bu) - zones.jointEdge || u > Math.max(au, bu) + zones.jointEdge) continue;
    near = Math.min(near, toSegment(u, v, au, av, bu, bv));
  }
  return near < zones.jointEdge - SLACK_UM ? near : null;
}

/** Distance to a free edge of the slab where that is nearer than allowed; 0 off the slab; null where all is well. */
export function slabEdgeAt(zones: Zones, u: number, v: number): number | null {
  const { slab } = zones;
  if (!slab) return null;
  if (!insideEdges(slab, u, v) && !slab.some((edge) => toSegment(u, v, ...edge) <= SLACK_UM)) return 0;
  let near = Infinity;
  for (const edge of zones.freeEdges) near = Math.min(near, toSegment(u, v, ...edge));
  return near < zones.slabEdge - SLACK_UM ? near : null;
}

/** Those stretches of the slab's edge that no wall or door runs along, found every 2 mm and so never drawn too long. */
function freeEdges(slab: Path, walls: Segment[], reach: number): Segment[] {
  const out: Segment[] = [];
  for (let i = 0, j = slab.length - 1; i < slab.length; j = i++) {
    const a = slab[j]!;
    const b = slab[i]!;
    const dx = b.x - a.x;
    const dy = b.y - a.y;
    const length = Math.sqrt(dx * dx + dy * dy) || 1;
    const beside = walls.filter(
      ([au, av, bu, bv]) =>
        Math.abs(dx * (bv - av) - dy * (bu - au)) <=
        NEARLY_ALONG * length * Math.sqrt((bu - au) * (bu - au) + (bv - av) * (bv - av)),
    );
    const steps = beside.length === 0 ? 1 : Math.max(1, Math.ceil(length / EDGE_STEP_UM));
    let from: number | null = null;
    for (let k = 0; k <= steps + 1; k++) {
      const t = k / steps;
      const free = k <= steps && !beside.some((w) => runsAlong(w, dx, dy, length, a.x + dx * t, a.y + dy * t, reach));
      if (free) from ??= t;
      else if (from !== null) {
        const to = (k - 1) / steps;
        out.push([a.x + dx * from, a.y + dy * from, a.x + dx * to, a.y + dy * to]);
        from = null;
      }
    }
  }
  return out;
}

/** A wall runs along an edge at a place where its foot lies on the wall, within reach, and both run nearly the same way. */
function runsAlong(
  [au, av, bu, bv]: Segment,
  dx: number,
  dy: number,
  length: number,
  x: number,
  y: number,
  reach: number,
): boolean {
  const wu = bu - au;
  const wv = bv - av;
  const wall = Math.sqrt(wu * wu + wv * wv);
  if (wall === 0 || Math.abs(dx * wv - dy * wu) > NEARLY_ALONG * length * wall) return false;
  const foot = ((x - au) * wu + (y - av) * wv) / wall;
  return (
    foot >= -SLACK_UM && foot <= wall + SLACK_UM && Math.abs(((x - au) * wv - (y - av) * wu) / wall) <= reach + SLACK_UM
  );
}

/** A place where a clip may be set, body and holes. */
export function mayStand(zones: Zones, u: number, v: number, body: boolean): boolean {
  for (const [dx, dy] of zones.holes) {
    const hu = u + dx;
    const hv = v + dy;
    if (noDrillAt(zones, hu, hv) !== null || baseJointAt(zones, hu, hv) !== null || slabEdgeAt(zones, hu, hv) !== null)
      return false;
  }
  if (!body) return true;
  const lo = u - zones.half;
  const hi = u + zones.half;
  for (const { ring, bounds: b } of zones.cutouts)
    if (b.v0 <= v && b.v1 >= v && b.u1 > lo && b.u0 < hi && lineTouches(ring, lo, hi, v)) return false;
  for (const [au, av, bu, bv] of zones.standing) if (crosses(au, av, bu, bv, lo, hi, v)) return false;
  return true;
}

function lineTouches(ring: Path, lo: number, hi: number, v: number): boolean {
  if (insidePaths([ring], (lo + hi) / 2, v)) return true;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++)
    if (crosses(ring[j]!.x, ring[j]!.y, ring[i]!.x, ring[i]!.y, lo, hi, v)) return true;
  return false;
}

/** Whether a segment meets the stretch lo .. hi of the line v. */
function crosses(au: number, av: number, bu: number, bv: number, lo: number, hi: number, v: number): boolean {
  if (av > v === bv > v) return av === v && bv === v && Math.max(au, bu) > lo && Math.min(au, bu) < hi;
  const u = au + ((bu - au) * (v - av)) / (bv - av);
  return u > lo && u < hi;
}

/**
 * Whether a clip could stand on the line v with its anchor in lo .. hi, clear of the clips at `others` by one length.
 * Two neighbouring places half a millimetre apart must both be free, so that no rounding decides. O(stretch).
 */
export function roomFor(
  zones: Zones,
  lo: number,
  hi: number,
  v: number,
  others: readonly number[],
  apart: number,
  body = true,
): boolean {
  let before = false;
  const near = zonesNear(zones, lo, hi + 20, v);
  for (let u = Math.ceil(lo) + 20; u <= hi - 20; u += 500) {
    const free =
      others.every((o) => Math.abs(o - u) >= apart + 20) &&
      mayStand(near, u, v, body) &&
      mayStand(near, u + 20, v, body);
    if (free && before) return true;
    before = free;
  }
  return false;
}

function edgesOf(path: Path): Segment[] {
  return path.map((p, i) => {
    const q = path[(i + path.length - 1) % path.length]!;
    return [p.x, p.y, q.x, q.y];
  });
}

/** Crossing number of a point; on the edge counts as either. */
function insideEdges(edges: readonly Segment[], x: number, y: number): boolean {
  let inside = false;
  for (const [au, av, bu, bv] of edges)
    if (av > y !== bv > y && x < ((bu - au) * (y - av)) / (bv - av) + au) inside = !inside;
  return inside;
}

/** The same zones less what no hole and no body of a clip anchored on the line v, in lo .. hi, could come near. */
export function zonesNear(zones: Zones, lo: number, hi: number, v: number): Zones {
  let [u0, v0, u1, v1] = [lo, v, hi, v];
  for (const [dx, dy] of zones.holes) {
    u0 = Math.min(u0, lo + dx);
    u1 = Math.max(u1, hi + dx);
    v0 = Math.min(v0, v + dy);
    v1 = Math.max(v1, v + dy);
  }
  const reaches =
    (by: number) =>
    ([au, av, bu, bv]: Segment): boolean =>
      Math.min(au, bu) <= u1 + by + 10 &&
      Math.max(au, bu) >= u0 - by - 10 &&
      Math.min(av, bv) <= v1 + by + 10 &&
      Math.max(av, bv) >= v0 - by - 10;
  // Whole lines, not stretches: a ring's crossings are counted as far as they go.
  const onLine = ([, av, , bv]: Segment): boolean => Math.min(av, bv) <= v1 + 10 && Math.max(av, bv) >= v0 - 10;
  const meets = ({ bounds: b }: { bounds: Bounds }): boolean =>
    b.u0 <= u1 + zones.half + 10 &&
    b.u1 >= u0 - zones.half - 10 &&
    b.v0 <= v1 + zones.half + 10 &&
    b.v1 >= v0 - zones.half - 10;
  return {
    ...zones,
    noDrill: zones.noDrill.filter(meets).map((area) => ({ ...area, edges: area.edges.filter(onLine) })),
    slab: zones.slab === null ? null : zones.slab.filter(onLine),
    baseJoints: zones.baseJoints.filter(reaches(zones.jointEdge)),
    freeEdges: zones.freeEdges.filter(reaches(zones.slabEdge)),
    standing: zones.standing.filter(reaches(zones.half)),
    cutouts: zones.cutouts.filter(meets),
  };
}
