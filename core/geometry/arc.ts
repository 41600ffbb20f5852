import { TOLERANCE } from "../base/tolerances.ts";

/**
 * Flattens the edge from (x0, y0) to (x1, y1) with a bulge into points after the first up to and including the last.
 * Halving keeps to + - * / and square roots: b' = b / (1 + sqrt(1 + b b)), until the sagitta is within `chordMm`.
 * The mid-point of an arc lies `bulge * chord / 2` to the right of the chord. Lengths in any one unit.
 */
export function flattenEdge(
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  bulge: number,
  out: [number, number][],
  chordMm: number = TOLERANCE.chordMm,
  depth = 0,
): void {
  const dx = x1 - x0;
  const dy = y1 - y0;
  const sagitta = (Math.abs(bulge) * Math.sqrt(dx * dx + dy * dy)) / 2;
  if (bulge === 0 || sagitta <= chordMm || depth > 20) {
    out.push([x1, y1]);
    return;
  }
  const mx = (x0 + x1) / 2 + (dy * bulge) / 2;
  const my = (y0 + y1) / 2 - (dx * bulge) / 2;
  const half = bulge / (1 + Math.sqrt(1 + bulge * bulge));
  flattenEdge(x0, y0, mx, my, half, out, chordMm, depth + 1);
  flattenEdge(mx, my, x1, y1, half, out, chordMm, depth + 1);
}

/** A ring with bulges as a plain ring, first point not repeated. */
export function flattenRing(
  ring: readonly (readonly [number, number, number])[],
  chordMm: number = TOLERANCE.chordMm,
): [number, number][] {
  const out: [number, number][] = [];
  for (let i = 0; i < ring.length; i++) {
    const [x0, y0, bulge] = ring[i]!;
    const [x1, y1] = ring[(i + 1) % ring.length]!;
    flattenEdge(x0, y0, x1, y1, bulge, out, chordMm);
  }
  const last = out.pop();
  if (last) out.unshift(last);
  return out;
}

/**
 * A counter-clockwise ring with bulges as a plain ring that leaves nothing of it outside: an arc that swells outward is
 * drawn by its tangents, one that bites inward by its chords. For areas nothing may come into; at most `chordMm` too large.
 */
export function flattenAround(
  ring: readonly (readonly [number, number, number])[],
  chordMm: number = TOLERANCE.chordMm,
): [number, number][] {
  const out: [number, number][] = [];
  ring.forEach(([x0, y0, bulge], i) => {
    const [x1, y1] = ring[(i + 1) % ring.length]!;
    const points: [number, number][] = [[x0, y0]];
    flattenEdge(x0, y0, x1, y1, bulge, points, chordMm / 2);
    // The tangents at both ends of a part of the arc meet below its chord by half of it times tan(half its angle).
    const steps = points.length - 1;
    const part = steps > 1 ? partOf(bulge, steps) : bulge;
    const reach = bulge > 0 ? part / (1 - part * part) : 0;
    for (let k = 0; k < steps; k++) {
      const [ax, ay] = points[k]!;
      const [bx, by] = points[k + 1]!;
      out.push([ax, ay]);
      if (reach > 0) out.push([(ax + bx) / 2 + (by - ay) * reach, (ay + by) / 2 - (bx - ax) * reach]);
    }
  });
  return out;
}

/** Bulge of one of `steps` (a power of two) equal parts of an arc. */
function partOf(bulge: number, steps: number): number {
  let part = bulge;
  for (let n = 1; n < steps; n *= 2) part /= 1 + Math.sqrt(1 + part * part);
  return part;
}
