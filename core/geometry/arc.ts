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
