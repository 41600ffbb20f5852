import type { Piece, PlanFile, XyMm } from "../plan/plan.ts";

/** Two rings are one where no corner lies farther from the other's than a file's rounding, mm, along x or y. */
export const SAME_MM = 0.001;

export interface Lying {
  /** Id in the plan worked from to id in the new plan: the same piece in the same place. */
  same: Map<string, string>;
  /** Pieces that lie and that the new plan draws otherwise: the piece that overlaps it most and how far off it is. */
  other: { piece: Piece; now: Piece | null; offMm: number | null }[];
}

/**
 * Finds each piece that lies in the new plan, by its geometry alone. `rowOf`: old row to new row.
 * O(pieces that lie x pieces of their row).
 */
export function findLaid(laid: readonly Piece[], plan: PlanFile, rowOf: ReadonlyMap<number, number>): Lying {
  const rows = new Map<number, Piece[]>();
  for (const piece of plan.pieces) {
    const list = rows.get(piece.row);
    if (list) list.push(piece);
    else rows.set(piece.row, [piece]);
  }
  const lying: Lying = { same: new Map(), other: [] };
  for (const piece of laid) {
    const row = rows.get(rowOf.get(piece.row) ?? -1) ?? [];
    const found = row.find((one) => samePiece(piece, one));
    if (found) lying.same.set(piece.id, found.id);
    else lying.other.push({ piece, ...nearest(piece, row) });
  }
  return lying;
}

function samePiece(a: Piece, b: Piece): boolean {
  if (Math.abs(a.length - b.length) > 3 * SAME_MM || Math.abs(a.width - b.width) > 3 * SAME_MM) return false;
  if (a.holes.length !== b.holes.length || offBy(a.ring, b.ring) > SAME_MM + 1e-9) return false;
  return a.holes.every((hole) => b.holes.some((one) => offBy(hole, one) <= SAME_MM + 1e-9));
}

/** Greatest distance along x or y from a corner of either ring to the other's nearest corner, mm. */
function offBy(a: readonly XyMm[], b: readonly XyMm[]): number {
  return Math.max(toCorners(a, b), toCorners(b, a));
}

function toCorners(from: readonly XyMm[], to: readonly XyMm[]): number {
  let worst = 0;
  for (const [x, y] of from) {
    let best = Number.POSITIVE_INFINITY;
    for (const [p, q] of to) {
      const d = Math.max(Math.abs(x - p), Math.abs(y - q));
      if (d < best) best = d;
    }
    if (best > worst) worst = best;
    if (worst === Number.POSITIVE_INFINITY) break;
  }
  return worst;
}

function nearest(piece: Piece, row: readonly Piece[]): { now: Piece | null; offMm: number | null } {
  let now: Piece | null = null;
  let offMm: number | null = null;
  for (const one of row) {
    const off = offBy(piece.ring, one.ring);
    if (offMm !== null && off >= offMm) continue;
    now = one;
    offMm = off;
  }
  return { now, offMm };
}
