import type { Region, Ring, Uv } from "./frame.ts";
import { intersectRegions } from "./region.ts";
import { boxOf, rectangle, ringArea, tidyRing } from "./ring.ts";

/** A strip between two levels of v, low < high; strips come in ascending order and do not overlap. */
export type Strip = readonly [low: number, high: number];
/** A run of a ring inside one strip. Ends lie on the strip's low (0) or high (1) line. */
interface Chain {
  points: Uv[];
  startSide: 0 | 1;
  endSide: 0 | 1;
  /** Where the line is crossed, unrounded, and the slope du/dv there: the order on the line. */
  startU: number;
  startSlope: number;
  endU: number;
  endSlope: number;
  next: Chain | null;
  used: boolean;
}

/**
 * The parts of regions that lie in each strip, by strip, parts by least u. Rings are simple, outer counter-clockwise, holes
 * clockwise; whole units in and out; crossings are computed from the edge's lower end alone, rounded once.
 *
 * A vertex on a strip's line counts as outside, so an edge along the line costs nothing and no epsilon is needed. Inside
 * the strip a ring falls into chains between crossings; on the low line, read by ascending u, crossings alternate
 * an end, then a start (field between them); on the high line a start, then an end. Linking each chain's end with its partner closes the parts.
 * Cost: edges + (edge, strip) meetings + crossings log crossings.
 */
export function clipStrips(regions: readonly Region[], strips: readonly Strip[]): Region[][] {
  const chains: Chain[][] = strips.map(() => []);
  const whole: Ring[][] = strips.map(() => []);
  for (const region of regions) {
    cutRing(region.outer, strips, chains, whole);
    for (const hole of region.holes) cutRing(hole, strips, chains, whole);
  }
  return strips.map((strip, k) => {
    // Rings that touch or cross within a rounding can spoil the order on a line; the general clipper then decides.
    if (link(chains[k]!, 0) && link(chains[k]!, 1)) return assemble(chains[k]!, whole[k]!);
    return byLeastU(clipByGeneral(regions, strip));
  });
}

/** The same cut by upright slabs between levels of u. */
export function clipSlabs(regions: readonly Region[], slabs: readonly Strip[]): Region[][] {
  const turned = regions.map((r) => ({ outer: swap(r.outer), holes: r.holes.map(swap) }));
  return clipStrips(turned, slabs).map((parts) =>
    parts.map((r) => ({ outer: swap(r.outer), holes: r.holes.map(swap) })),
  );
}

/** Swaps the axes and keeps the orientation. */
function swap(ring: Ring): Ring {
  return ring.map(([u, v]) => [v, u] as const).reverse();
}

function cutRing(ring: Ring, strips: readonly Strip[], chains: Chain[][], whole: Ring[][]): void {
  const n = ring.length;
  if (n < 3) return;
  // For each strip met: the ring's edges that enter its open inside, in ring order.
  const met = new Map<number, number[]>();
  for (let i = 0; i < n; i++) {
    const va = ring[i]![1];
    const vb = ring[i + 1 === n ? 0 : i + 1]![1];
    const lo = Math.min(va, vb);
    const hi = Math.max(va, vb);
    for (let k = firstStripAbove(strips, lo); k < strips.length && strips[k]![0] < hi; k++) {
      const list = met.get(k);
      if (list) list.push(i);
      else met.set(k, [i]);
    }
  }
  for (const [k, edges] of met) {
    const [low, high] = strips[k]!;
    const inside = (i: number) => ring[i]![1] > low && ring[i]![1] < high;
    const first = edges.findIndex((i) => !inside(i));
    if (first < 0) {
      whole[k]!.push(ring);
      continue;
    }
    let open: Chain | null = null;
    for (let e = 0; e < edges.length; e++) {
      const i = edges[(first + e) % edges.length]!;
      const a = ring[i]!;
      const b = ring[i + 1 === n ? 0 : i + 1]!;
      const bInside = b[1] > low && b[1] < high;
      if (!(a[1] > low && a[1] < high)) {
        const side = a[1] <= low ? 0 : 1;
        const at = side === 0 ? low : high;
        const u = crossing(a, b, at);
        open = {
          points: [[Math.round(u) + 0, at]],
          startSide: side,
          endSide: side,
          startU: u,
          startSlope: (b[0] - a[0]) / (b[1] - a[1]),
          endU: 0,
          endSlope: 0,
          next: null,
          used: false,
        };
      }
      if (open === null) continue;
      if (bInside) {
        open.points.push(b);
      } else {
        const side = b[1] <= low ? 0 : 1;
        const at = side === 0 ? low : high;
        const u = crossing(a, b, at);
        open.points.push([Math.round(u) + 0, at]);
        open.endSide = side;
        open.endU = u;
        open.endSlope = (b[0] - a[0]) / (b[1] - a[1]);
        chains[k]!.push(open);
        open = null;
      }
    }
  }
}

/** Index of the first strip whose high line lies above v. */
function firstStripAbove(strips: readonly Strip[], v: number): number {
  let lo = 0;
  let hi = strips.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (strips[mid]![1] > v) hi = mid;
    else lo = mid + 1;
  }
  return lo;
}

/** u where the edge crosses a level, always reckoned from its lower end: the same bits from either side. */
function crossing(a: Uv, b: Uv, v: number): number {
  const [p, q] = a[1] < b[1] ? [a, b] : [b, a];
  if (v === p[1]) return p[0];
  if (v === q[1]) return q[0];
  return p[0] + ((q[0] - p[0]) * (v - p[1])) / (q[1] - p[1]);
}

interface Crossing {
  u: number;
  slope: number;
  chain: Chain;
  start: boolean;
}

function assemble(chains: Chain[], whole: Ring[]): Region[] {
  if (chains.length === 0 && whole.length === 0) return [];
  const regions: { outer: Ring; holes: Ring[] }[] = [];
  for (const start of chains) {
    if (start.used) continue;
    const points: Uv[] = [];
    for (let chain: Chain | null = start; chain !== null && !chain.used; chain = chain.next) {
      chain.used = true;
      points.push(...chain.points);
    }
    const outer = tidyRing(points);
    if (outer.length >= 3 && ringArea(outer) > 0) regions.push({ outer, holes: [] });
  }
  const inner: Ring[] = [];
  for (const ring of whole) {
    if (ringArea(ring) > 0) regions.push({ outer: ring, holes: [] });
    else inner.push(ring);
  }
  for (const hole of inner) {
    const owner = regions.length === 1 ? regions[0] : regions.find((r) => encloses(r.outer, hole));
    owner?.holes.push(hole);
  }
  return byLeastU(regions);
}

function byLeastU(regions: Region[]): Region[] {
  if (regions.length < 2) return regions;
  const keyed = regions.map((region) => ({ region, box: boxOf(region.outer) }));
  keyed.sort((a, b) => a.box.u0 - b.box.u0 || a.box.v0 - b.box.v0 || a.box.u1 - b.box.u1);
  return keyed.map((k) => k.region);
}

function clipByGeneral(regions: readonly Region[], strip: Strip): Region[] {
  let u0 = Number.POSITIVE_INFINITY;
  let u1 = Number.NEGATIVE_INFINITY;
  for (const region of regions) {
    const box = boxOf(region.outer);
    u0 = Math.min(u0, box.u0);
    u1 = Math.max(u1, box.u1);
  }
  return intersectRegions(regions, rectangle(u0, strip[0], u1, strip[1]));
}

/** Links chains along one line; false where the crossings do not alternate as they must. */
function link(chains: Chain[], side: 0 | 1): boolean {
  const line: Crossing[] = [];
  for (const chain of chains) {
    if (chain.startSide === side) line.push({ u: chain.startU, slope: chain.startSlope, chain, start: true });
    if (chain.endSide === side) line.push({ u: chain.endU, slope: chain.endSlope, chain, start: false });
  }
  // Just above the low line a greater slope lies further right; just below the high line further left.
  const sense = side === 0 ? 1 : -1;
  line.sort((a, b) => a.u - b.u || sense * (a.slope - b.slope) || Number(a.start) - Number(b.start));
  for (let i = 0; i + 1 < line.length; i += 2) {
    const a = line[i]!;
    const b = line[i + 1]!;
    // Low line: an end, then a start; high line: a start, then an end. Between the two lies field.
    if (a.start !== (side === 1) || b.start !== (side === 0)) return false;
    if (side === 0) a.chain.next = b.chain;
    else b.chain.next = a.chain;
  }
  return line.length % 2 === 0;
}

function encloses(outer: Ring, inner: Ring): boolean {
  const [u, v] = inner[0]!;
  let inside = false;
  for (let i = 0, j = outer.length - 1; i < outer.length; j = i++) {
    const [ui, vi] = outer[i]!;
    const [uj, vj] = outer[j]!;
    if (vi > v !== vj > v && u < ((uj - ui) * (v - vi)) / (vj - vi) + ui) inside = !inside;
  }
  return inside;
}
