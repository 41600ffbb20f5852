import { orient2d } from "robust-predicates";
import { LIMITS } from "../../base/limits.ts";
import { toUm } from "../../base/units.ts";
import { flattenEdge } from "../../geometry/arc.ts";
import type { Vertex } from "../../job/job.ts";
import type { JsonPath, PathProblem } from "../../read/problem.ts";
import { crossingsOf } from "./crossings.ts";
import type { SiteProblems } from "./problems.ts";

export type SiteProblem = PathProblem<keyof SiteProblems & string, SiteProblems[keyof SiteProblems]>;
/** A ring ready for exact questions: whole micrometres about a local origin, arcs flattened. */
export interface FlatRing {
  xsUm: Float64Array;
  ysUm: Float64Array;
  /** The edge of the ring as given that each flat edge belongs to. */
  edges: Int32Array;
  areaUm2: number;
}
/** The origin rings are measured from, mm, whole micrometres: a site in national coordinates stays exact. */
export interface Origin {
  xMm: number;
  yMm: number;
}

/** Steeper than this an arc is nearly a full circle (343 degrees): give it as two arcs. */
const BULGE_MAX = 13;
const FLAT_POINTS_MAX = 400_000;
/** So many crossings of one ring are listed: more help nobody. */
const CROSSINGS_LISTED = 10;

/**
 * Whether a ring is one simple closed line, told exactly: orientation tests on whole micrometres, no epsilon.
 * Gives its flat form, or every problem with its place. `leastMm2`: smaller areas are refused.
 * O(n log n) for drawn shapes: a grid of edges, not every pair.
 */
export function readRing(
  ring: readonly Vertex[],
  path: JsonPath,
  origin: Origin,
  leastMm2: number,
): { flat: FlatRing | null; problems: SiteProblem[] } {
  const problems: SiteProblem[] = [];
  const tell = <C extends keyof SiteProblems & string>(at: JsonPath, code: C, data: SiteProblems[C]): void => {
    problems.push({ path: at, code, data });
  };
  checkCorners(ring, path, tell);
  const extent = extentOf(ring);
  if (extent > LIMITS.extentMm) tell(path, "tooWide", { found: Math.round(extent), limit: LIMITS.extentMm });
  if (problems.length > 0) return { flat: null, problems };
  const flat = flatten(ring, origin);
  if (!flat) {
    tell(path, "tooManyArcPoints", { limit: FLAT_POINTS_MAX });
    return { flat: null, problems };
  }
  checkSpikes(flat, ring, path, tell);
  for (const hit of crossingsOf(flat, CROSSINGS_LISTED)) {
    const at = [hit.xUm / 1000 + origin.xMm, hit.yUm / 1000 + origin.yMm].map(round) as [number, number];
    const [sideA, sideB] = [flat.edges[hit.a]!, flat.edges[hit.b]!];
    if (problems.some((one) => one.code === "spike")) break;
    tell([...path, sideB], "ringCrosses", { how: hit.how, sideA, sideB, x: at[0], y: at[1] });
  }
  const areaMm2 = Math.abs(flat.areaUm2) / 1e6;
  if (problems.length === 0 && areaMm2 <= leastMm2)
    tell(path, "noArea", { areaMm2: round(areaMm2), limitMm2: leastMm2 });
  return { flat: problems.length === 0 ? flat : null, problems };
}

type Tell = <C extends keyof SiteProblems & string>(at: JsonPath, code: C, data: SiteProblems[C]) => void;

function checkCorners(ring: readonly Vertex[], path: JsonPath, tell: Tell): void {
  const n = ring.length;
  const curved = ring.some(([, , bulge]) => bulge !== 0);
  if (n < 2 || (n < 3 && !curved)) tell(path, "fewCorners", { found: n });
  for (let i = 0; i < n && n > 1; i++) {
    const [x, y, bulge] = ring[i]!;
    const next = ring[(i + 1) % n]!;
    if (toUm(x) === toUm(next[0]) && toUm(y) === toUm(next[1])) {
      const closing = i === n - 1;
      const corner = closing ? 0 : i;
      const again = closing ? n - 1 : i + 1;
      tell([...path, again], "repeatedCorner", { corner, again, x, y, closing });
    }
    if (Math.abs(bulge) > BULGE_MAX) tell([...path, i, 2], "bulgeTooGreat", { corner: i, bulge, limit: BULGE_MAX });
  }
}

/** Longest side of the box round the corners, mm; arcs are bounded by their own points later. */
function extentOf(ring: readonly Vertex[]): number {
  let [x0, x1, y0, y1] = [
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  for (const [x, y] of ring) {
    x0 = Math.min(x0, x);
    x1 = Math.max(x1, x);
    y0 = Math.min(y0, y);
    y1 = Math.max(y1, y);
  }
  return Math.max(x1 - x0, y1 - y0);
}

function flatten(ring: readonly Vertex[], origin: Origin): FlatRing | null {
  const xs: number[] = [];
  const ys: number[] = [];
  const edges: number[] = [];
  for (let i = 0; i < ring.length; i++) {
    const [x0, y0, bulge] = ring[i]!;
    const [x1, y1] = ring[(i + 1) % ring.length]!;
    const points: [number, number][] = [[x0 - origin.xMm, y0 - origin.yMm]];
    flattenEdge(x0 - origin.xMm, y0 - origin.yMm, x1 - origin.xMm, y1 - origin.yMm, bulge, points);
    points.pop();
    for (const [x, y] of points) {
      const [xUm, yUm] = [toUm(x) + 0, toUm(y) + 0];
      if (xs.length > 0 && xs[xs.length - 1] === xUm && ys[ys.length - 1] === yUm) continue;
      xs.push(xUm);
      ys.push(yUm);
      edges.push(i);
    }
    if (xs.length > FLAT_POINTS_MAX) return null;
  }
  const flat = { xsUm: Float64Array.from(xs), ysUm: Float64Array.from(ys), edges: Int32Array.from(edges), areaUm2: 0 };
  flat.areaUm2 = shoelace(flat.xsUm, flat.ysUm);
  return flat;
}

/** Signed area, counter-clockwise positive; summed about the first point, so far-off sites lose nothing. */
function shoelace(xs: Float64Array, ys: Float64Array): number {
  let twice = 0;
  const [x0, y0] = [xs[0]!, ys[0]!];
  for (let i = 1; i + 1 < xs.length; i++) {
    twice += (xs[i]! - x0) * (ys[i + 1]! - y0) - (xs[i + 1]! - x0) * (ys[i]! - y0);
  }
  return twice / 2;
}

/** A corner where the line goes straight back over itself. */
function checkSpikes(flat: FlatRing, ring: readonly Vertex[], path: JsonPath, tell: Tell): void {
  const { xsUm: xs, ysUm: ys, edges } = flat;
  const n = xs.length;
  for (let i = 0; i < n; i++) {
    const a = (i + n - 1) % n;
    const b = (i + 1) % n;
    if (orient2d(xs[a]!, ys[a]!, xs[i]!, ys[i]!, xs[b]!, ys[b]!) !== 0) continue;
    const back = (xs[a]! - xs[i]!) * (xs[b]! - xs[i]!) + (ys[a]! - ys[i]!) * (ys[b]! - ys[i]!);
    if (back <= 0) continue;
    const corner = edges[i]!;
    tell([...path, corner], "spike", { corner, x: ring[corner]![0], y: ring[corner]![1] });
  }
}

/** Whether a point lies inside (1), on the edge (0) or outside (-1); exact. O(n). */
export function whereIs(flat: FlatRing, xUm: number, yUm: number): -1 | 0 | 1 {
  const { xsUm: xs, ysUm: ys } = flat;
  let inside = false;
  for (let i = 0, j = xs.length - 1; i < xs.length; j = i++) {
    const [ax, ay, bx, by] = [xs[j]!, ys[j]!, xs[i]!, ys[i]!];
    if ((ay > yUm && by > yUm) || (ay < yUm && by < yUm)) continue;
    if (ay === by) {
      if ((ax <= xUm && xUm <= bx) || (bx <= xUm && xUm <= ax)) return 0;
      continue;
    }
    const side = orient2d(ax, ay, bx, by, xUm, yUm);
    if (side === 0) return 0;
    // robust-predicates gives a positive sign where the three turn clockwise (y upward)
    if (ay > yUm !== by > yUm && side < 0 === by > ay) inside = !inside;
  }
  return inside ? 1 : -1;
}

function round(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}

/** Whether any edge of one ring truly crosses an edge of another. O(n m), with boxes. */
export function crossingPair(a: FlatRing, b: FlatRing): boolean {
  for (let i = 0; i < a.xsUm.length; i++) {
    for (let j = 0; j < b.xsUm.length; j++) if (edgesCross(a, i, b, j)) return true;
  }
  return false;
}

function edgesCross(a: FlatRing, i: number, b: FlatRing, j: number): boolean {
  const i1 = (i + 1) % a.xsUm.length;
  const j1 = (j + 1) % b.xsUm.length;
  const [px, py, qx, qy] = [a.xsUm[i]!, a.ysUm[i]!, a.xsUm[i1]!, a.ysUm[i1]!];
  const [rx, ry, sx, sy] = [b.xsUm[j]!, b.ysUm[j]!, b.xsUm[j1]!, b.ysUm[j1]!];
  if (Math.max(px, qx) < Math.min(rx, sx) || Math.max(rx, sx) < Math.min(px, qx)) return false;
  if (Math.max(py, qy) < Math.min(ry, sy) || Math.max(ry, sy) < Math.min(py, qy)) return false;
  const one = orient2d(px, py, qx, qy, rx, ry) * orient2d(px, py, qx, qy, sx, sy);
  const two = orient2d(rx, ry, sx, sy, px, py) * orient2d(rx, ry, sx, sy, qx, qy);
  return one < 0 && two < 0;
}
