import type { Region } from "../../geometry/frame.ts";
import type { Job } from "../../job/job.ts";
import type { Piece } from "../bond/record.ts";
import type { BoundBy } from "./record.ts";

/**
 * The length of board a piece takes up in every plan, by one of three measures; whole micrometres, never too much.
 * Draw any line along a board. The parts it crosses lie a kerf apart on it, so their chords, each and a kerf, add up to at
 * most board + kerf. So do weighted means over several lines. The three measures are three choices of lines:
 * - area: all lines alike. A piece as wide as the board is crossed by all of them and takes area / width + kerf;
 *   any other piece area / width.
 * - edges: the board's grooved edges alike. A piece takes, for each edge where it has the groove, the length of its factory
 *   edge and a kerf, divided by the number of grooved edges a board has. This is what tells that two held strips share a
 *   cross-section, and three do not.
 * - middle: the board's middle line. A piece with a groove, or as wide as the board, takes its chord there and a kerf.
 *   This is what tells that a strip wider than half a board shares it with no other such strip.
 * Turning a board or a part by 180 degrees maps each of these sets of lines onto itself (where only one edge is grooved no
 * piece with a groove can be turned). Slanting and curved pieces are rounded down to whole millimetres after taking off
 * 0.05 mm, so that the rounding of rings in a plan file never makes them longer than a reader finds them.
 */
export function demandUm(job: Job, piece: Piece, boardWidthUm: number, kerfUm: number, by: BoundBy): number {
  const full = piece.widthUm === boardWidthUm;
  if (full && piece.plain && (by !== "edges" || (piece.edges[0] === "groove" && piece.edges[1] === "groove")))
    return piece.lengthUm + kerfUm;
  if (by === "area") {
    const length = piece.plain ? (piece.lengthUm * piece.widthUm) / boardWidthUm : areaUm2(piece) / boardWidthUm;
    const safe = piece.plain && full ? length : floorMm(length);
    return safe + (full ? kerfUm : 0);
  }
  if (by === "edges") {
    const grooved = job.board.grooves === "both" ? 2 : 1;
    let sum = 0;
    for (const edge of [0, 1] as const) {
      if (piece.edges[edge] !== "groove") continue;
      const v = edge === 0 ? piece.stripV0Um : piece.stripV1Um;
      const length = piece.plain ? piece.lengthUm : floorMm(lengthAt(piece, v));
      if (length > 0) sum += length + kerfUm;
    }
    return Math.floor(sum / grooved);
  }
  const middle = (piece.stripV0Um + piece.stripV1Um) / 2;
  const pinned = full || piece.edges[0] === "groove" || piece.edges[1] === "groove";
  if (!pinned || piece.v0Um >= middle || piece.v1Um <= middle) return 0;
  const length = piece.plain ? piece.lengthUm : floorMm(chordUm(piece, middle));
  return length > 0 ? length + kerfUm : 0;
}

/** Whole millimetres, in micrometres, with 0.05 mm in hand. */
function floorMm(um: number): number {
  return Math.max(0, Math.floor((um - 50) / 1000) * 1000);
}

/** Area of the piece's region, square micrometres. */
export function areaUm2(piece: Piece): number {
  return piece.plain ? piece.lengthUm * piece.widthUm : regionAreaUm2(piece.region);
}

/** Area of a region, square micrometres; summed about a corner of its own, where the products stay small. */
export function regionAreaUm2(region: Region): number {
  const [uAt, vAt] = region.outer[0]!;
  let twice = 0;
  for (const ring of [region.outer, ...region.holes]) {
    let sum = 0;
    for (let i = 0; i < ring.length; i++) {
      const [u0, v0] = ring[i]!;
      const [u1, v1] = ring[(i + 1) % ring.length]!;
      sum += (u0 - uAt) * (v1 - vAt) - (u1 - uAt) * (v0 - vAt);
    }
    twice += ring === region.outer ? Math.abs(sum) : -Math.abs(sum);
  }
  return twice / 2;
}

/** Length of the piece's outline that lies on the line v. */
function lengthAt(piece: Piece, v: number): number {
  const ring = piece.region.outer;
  let sum = 0;
  for (let i = 0; i < ring.length; i++) {
    const [u0, v0] = ring[i]!;
    const [u1, v1] = ring[(i + 1) % ring.length]!;
    if (v0 === v && v1 === v) sum += Math.abs(u1 - u0);
  }
  return sum;
}

/** Length of the line v inside the piece. */
function chordUm(piece: Piece, v: number): number {
  const at: number[] = [];
  for (const ring of [piece.region.outer, ...piece.region.holes])
    for (let i = 0; i < ring.length; i++) {
      const [u0, v0] = ring[i]!;
      const [u1, v1] = ring[(i + 1) % ring.length]!;
      if (v0 > v === v1 > v) continue;
      at.push(u0 + ((u1 - u0) * (v - v0)) / (v1 - v0));
    }
  at.sort((a, b) => a - b);
  let sum = 0;
  for (let i = 0; i + 1 < at.length; i += 2) sum += at[i + 1]! - at[i]!;
  return sum;
}
