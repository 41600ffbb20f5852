import { toMm, toUm } from "../../base/units.ts";
import type { Job } from "../../job/job.ts";
import type { BondRecord } from "../bond/record.ts";
import type { SetoutRecord, Span } from "../setout/record.ts";
import { areaUm2, regionAreaUm2 } from "./demand.ts";
import type { BoundBy, CuttingRecord } from "./record.ts";
import type { CutSizes } from "./unit.ts";

interface Figures {
  kerfUm: number;
  endUm: number;
  minPieceUm: number;
  longestUm: number;
  widthUm: number;
  grooved: number;
}

/**
 * Least number of boards over all legal joints. W board width, k kerf, e end gap, L longest board.
 * By each of the three measures of demand.ts (lines along a board), the parts of a board, each and a kerf, add up to at most
 * L + k. Counting e instead of k with every piece that has a joint, one board covers at most
 * `scale` = L + k + floor((L + k) / (minPiece + k)) max(0, e - k), for no line crosses more pieces of a board with joints.
 * What a span needs, whatever its joints: let M be its own measure, gaps and all, and x the share of the lines that cross
 * each of its pieces (area: 1 where as wide as the board; middle: 1 where it lies across the strip's middle and has a groove
 * or the board's width; edges: its grooved edges by those of a board).
 * - A rectangle: M + x e with joints, because n pieces cover M less (n - 1) x e and count n x e; M + x k in one piece. Where
 *   e < k a kerf is counted for the least number n = ceil((s + e) / (L + e)) of pieces: M - (n - 1) x e + n x k.
 * - Straight slanting ends, as wide as the board, both shorter than `minPiece` (so that every piece is crossed by every
 *   line): the same, M its area / W, or its chord on the middle line. By edges: M.
 * - Any other span, and strips by area: M less (n - 1) e with n = floor((s + e) / (minPiece + e)) pieces at most.
 * Scraps left out of a span (and named) are taken off M; where there are any, or the pieces are more than the joints tell,
 * the last rule is used. `duals` lists [need in mm, spans with that need]; needs that are not exact are rounded down to
 * whole millimetres with 0.05 mm in hand. The best of the three measures is kept (`by`).
 */
export function jointsBound(
  job: Job,
  setout: SetoutRecord,
  bond: BondRecord,
  sizes: CutSizes,
  longestUm: number,
): Pick<CuttingRecord, "boardsAtLeast" | "bound"> {
  const figures: Figures = {
    kerfUm: sizes.kerfUm,
    endUm: toUm(job.gaps.end),
    minPieceUm: toUm(job.bond.minPiece),
    longestUm,
    widthUm: sizes.boardWidthUm,
    grooved: job.board.grooves === "both" ? 2 : job.board.grooves === "none" ? 0 : 1,
  };
  const most = Math.floor((longestUm + figures.kerfUm) / (figures.minPieceUm + figures.kerfUm));
  const scale = longestUm + figures.kerfUm + most * Math.max(0, figures.endUm - figures.kerfUm);
  const spans = piecesBySpan(setout, bond);
  let best: Pick<CuttingRecord, "boardsAtLeast" | "bound"> | null = null;
  for (const by of ["area", "edges", "middle"] as const) {
    if (by === "edges" && figures.grooved === 0) continue;
    const needs = new Map<number, number>();
    let sum = 0;
    for (const [index, pieces] of spans) {
      const need = Math.floor(needUm(setout.spans[index]!, pieces, bond, figures, by));
      if (need <= 0) continue;
      sum += need;
      needs.set(need, (needs.get(need) ?? 0) + 1);
    }
    const boardsAtLeast = Math.ceil(sum / scale);
    if (best !== null && best.boardsAtLeast >= boardsAtLeast) continue;
    const duals = [...needs].sort((a, b) => a[0] - b[0]).map(([um, n]): [number, number] => [toMm(um), n]);
    best = { boardsAtLeast, bound: { scope: "joints", by, scale: toMm(scale), duals } };
  }
  return best!;
}

function needUm(span: Span, pieces: readonly number[], bond: BondRecord, f: Figures, by: BoundBy): number {
  const length = span.u1Um - span.u0Um;
  const first = bond.pieces[pieces[0]!]!;
  const full = span.v1Um - span.v0Um === f.widthUm;
  const single = pieces.length === 1 && length <= f.longestUm;
  const whole = pieces.every((i) => bond.pieces[i]!.widthUm === first.widthUm);
  if (span.plain && whole) {
    const grooves = (first.edges[0] === "groove" ? 1 : 0) + (first.edges[1] === "groove" ? 1 : 0);
    if (by === "area" && !full) return loose(((span.v1Um - span.v0Um) / f.widthUm) * length, length, single, f);
    const middle = (first.stripV0Um + first.stripV1Um) / 2;
    const across = span.v0Um < middle && span.v1Um > middle && (full || grooves > 0);
    const share = by === "area" ? 1 : by === "middle" ? (across ? 1 : 0) : grooves / f.grooved;
    return share * length + share * between(length, single, f);
  }
  let cut = 0;
  for (const i of pieces) cut += areaUm2(bond.pieces[i]!);
  const region = regionAreaUm2(span.region);
  const gaps = (pieces.length - 1) * f.endUm;
  const ends = full && whole ? slantingEnds(span) : null;
  const untouched = Math.abs(region - cut - gaps * f.widthUm) < f.widthUm * 100;
  const crossed = ends !== null && untouched && ends.leftUm < f.minPieceUm && ends.rightUm < f.minPieceUm;
  if (by === "area" && crossed) return floorMm(region / f.widthUm) + between(length, single, f);
  if (by === "middle" && crossed)
    return floorMm(length - (ends.leftUm + ends.rightUm) / 2) + between(length, single, f);
  if (by === "area") return floorMm(loose(Math.min(region, cut) / f.widthUm, length, single, f));
  // By edges or the middle line a slanting span counts its mean length; any other counts nothing.
  if (!crossed || first.edges[0] !== "groove" || first.edges[1] !== "groove") return 0;
  return floorMm(loose(region / f.widthUm, length, single, f));
}

/** What is counted between and after the pieces of a span that every line crosses. */
function between(length: number, single: boolean, f: Figures): number {
  if (single) return f.kerfUm;
  if (f.endUm >= f.kerfUm) return f.endUm;
  const n = Math.ceil((length + f.endUm) / (f.longestUm + f.endUm));
  return n * f.kerfUm - (n - 1) * f.endUm;
}

/** A measure less the end gaps of as many pieces as there may be. */
function loose(measure: number, length: number, single: boolean, f: Figures): number {
  const n = single ? 1 : Math.max(1, Math.floor((length + f.endUm) / (f.minPieceUm + f.endUm)));
  return Math.max(0, measure - (n - 1) * f.endUm);
}

/** How far the straight ends of a span lean, where all its corners lie on its two edges; else null. */
function slantingEnds(span: Span): { leftUm: number; rightUm: number } | null {
  if (span.region.holes.length > 0 || span.region.outer.length !== 4) return null;
  const low: number[] = [];
  const high: number[] = [];
  for (const [u, v] of span.region.outer) {
    if (v === span.v0Um) low.push(u);
    else if (v === span.v1Um) high.push(u);
    else return null;
  }
  if (low.length !== 2) return null;
  return {
    leftUm: Math.abs(Math.min(...low) - Math.min(...high)),
    rightUm: Math.abs(Math.max(...low) - Math.max(...high)),
  };
}

/** Whole millimetres, in micrometres, with 0.05 mm in hand. */
function floorMm(um: number): number {
  return Math.max(0, Math.floor((um - 50) / 1000) * 1000);
}

function piecesBySpan(setout: SetoutRecord, bond: BondRecord): Map<number, number[]> {
  const out = new Map<number, number[]>();
  for (let i = 0; i < bond.pieces.length; i++) {
    const span = bond.pieces[i]!.span;
    if (setout.spans[span] === undefined) continue;
    const list = out.get(span);
    if (list) list.push(i);
    else out.set(span, [i]);
  }
  return out;
}
