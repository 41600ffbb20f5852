import { TOLERANCE } from "../../base/tolerances.ts";
import { toUm, UM_PER_MM } from "../../base/units.ts";
import { flattenAround, flattenEdge } from "../../geometry/arc.ts";
import { type Frame, type Ring, toFrame, type Uv } from "../../geometry/frame.ts";
import type { MovedEdge } from "../../geometry/offset.ts";
import { moveRing } from "../../geometry/ring.ts";
import type { Vertex } from "../../job/job.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { SiteUv } from "./record.ts";

/**
 * Arcs are flattened to half of what is allowed, so that a reader who flattens by other steps still agrees within it.
 */
export const CHORD_UM = (TOLERANCE.chordMm / 2) * UM_PER_MM;
/** Turning and rounding to whole micrometres can tilt an edge by this much, um; such a tilt is taken out again. */
const TILT_UM = 3;
/** Only edges this much longer than the tilt are straightened, um. */
const TILT_LENGTH_UM = 2000;

/** The site in the row frame: for the record, and with its arcs still whole, for moving. */
export interface TurnedSite {
  site: SiteUv;
  outline: MovedEdge[];
  /** Clockwise: the field lies to the left. */
  cutouts: MovedEdge[][];
}

/** Turns the site once into the frame: whole micrometres, edges along u or v exactly so, arcs flattened for the record. */
export function turnSite(survey: SurveyRecord, frame: Frame): TurnedSite {
  const outline = turnRing(survey.outline, frame);
  const flat: Uv[] = [];
  const edges: SiteUv["edges"] = [];
  outline.forEach(([u, v, bulge], i) => {
    const side = survey.sides[i]!;
    const points = flattenOne([u, v, bulge], outline[(i + 1) % outline.length]!);
    flat.push([u, v], ...points.slice(0, -1));
    for (let k = 0; k < points.length; k++) {
      edges.push({ kind: side.kind, source: side.source, gapUm: toUm(side.gapMm) });
    }
  });
  const cutouts = survey.cutouts.map((cutout) => ({ cutout, ring: turnRing(cutout.ring, frame) }));
  return {
    site: {
      outline: flat,
      edges,
      cutouts: cutouts.map(({ cutout, ring }) => ({
        name: cutout.name,
        ring: flattenTurned(ring),
        gapUm: toUm(cutout.gapMm),
        height: cutout.height,
      })),
      noDrill: survey.noDrill.map((a) => ({ name: a.name, ring: around(turnRing(a.ring, frame)) })),
      keepClear: survey.keepClear.map((a) => ({ name: a.name, ring: flattenTurned(turnRing(a.ring, frame)) })),
      baseJoints: survey.baseJoints.map((line) => line.map(([x, y]) => toFrame(frame, x, y))),
      slab: survey.slab === null ? null : flattenTurned(turnRing(survey.slab, frame)),
    },
    outline: outline.map(([u, v, bulge], i) => ({ u, v, bulge, gap: toUm(survey.sides[i]!.gapMm) })),
    cutouts: cutouts.map(({ cutout, ring }) => backwards(ring, toUm(cutout.gapMm))),
  };
}

/** The site moved by whole micrometres, when the origin is known. */
export function moveSite(site: SiteUv, du: number, dv: number): SiteUv {
  const area = (a: { name: string; ring: Ring }) => ({ name: a.name, ring: moveRing(a.ring, du, dv) });
  return {
    outline: moveRing(site.outline, du, dv),
    edges: site.edges,
    cutouts: site.cutouts.map((c) => ({ ...c, ring: moveRing(c.ring, du, dv) })),
    noDrill: site.noDrill.map(area),
    keepClear: site.keepClear.map(area),
    baseJoints: site.baseJoints.map((line) => moveRing(line, du, dv) as Uv[]),
    slab: site.slab === null ? null : moveRing(site.slab, du, dv),
  };
}

function turnRing(ring: readonly Vertex[], frame: Frame): [number, number, number][] {
  const turned = ring.map(([x, y, bulge]): [number, number, number] => {
    const [u, v] = toFrame(frame, x, y);
    return [u, v, bulge];
  });
  straighten(turned, 0, 1);
  straighten(turned, 1, 0);
  return turned;
}

/** Gives the ends of each run of edges that lies along one axis (but for rounding) the same level across it. */
function straighten(ring: [number, number, number][], along: 0 | 1, across: 0 | 1): void {
  const n = ring.length;
  const level = (i: number): boolean => {
    const a = ring[i]!;
    const b = ring[(i + 1) % n]!;
    return a[2] === 0 && Math.abs(b[across] - a[across]) <= TILT_UM && Math.abs(b[along] - a[along]) >= TILT_LENGTH_UM;
  };
  const flags = ring.map((_, i) => level(i));
  const first = flags.findIndex((flag) => !flag);
  if (first < 0) return;
  for (let k = 1; k <= n; ) {
    const start = (first + k) % n;
    if (!flags[start]) {
      k++;
      continue;
    }
    let length = 1;
    while (flags[(start + length) % n]) length++;
    let sum = 0;
    for (let j = 0; j <= length; j++) sum += ring[(start + j) % n]![across] - ring[start]![across];
    const common = ring[start]![across] + Math.round(sum / (length + 1));
    for (let j = 0; j <= length; j++) ring[(start + j) % n]![across] = common;
    k += length;
  }
}

function flattenOne(a: readonly [number, number, number], b: readonly [number, number, number]): Uv[] {
  const out: [number, number][] = [];
  flattenEdge(a[0], a[1], b[0], b[1], a[2], out, CHORD_UM);
  return out.map(([u, v]) => [Math.round(u) + 0, Math.round(v) + 0] as const);
}

function flattenTurned(ring: readonly [number, number, number][]): Ring {
  return ring.flatMap((a, i) => [[a[0], a[1]] as Uv, ...flattenOne(a, ring[(i + 1) % ring.length]!).slice(0, -1)]);
}

/** Where nothing may be drilled, no arc is cut short by its chords. */
function around(ring: readonly [number, number, number][]): Ring {
  return flattenAround(ring, CHORD_UM).map(([u, v]) => [Math.round(u) + 0, Math.round(v) + 0] as const);
}

/** A ring run the other way: the edge that started at i + 1's end now starts there, its arc turned over. */
function backwards(ring: readonly [number, number, number][], gap: number): MovedEdge[] {
  const n = ring.length;
  return ring.map((_, i) => {
    const k = n - 1 - i;
    const from = ring[(k + 1) % n]!;
    return { u: from[0], v: from[1], bulge: -ring[k]![2] + 0, gap };
  });
}
