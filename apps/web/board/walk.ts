import type { Pt } from "../../../papers/sheet.ts";
import type { SaidFinding } from "../desk/asks.ts";
import type { Hit } from "./hit.ts";
import { fromUv, piecesIn, type Rows } from "./rows.ts";

/** Where a hit lies on the site: what the board centres on. */
export function placeOf(hit: Hit, rows: Rows | null, findings: readonly SaidFinding[]): Pt | null {
  if (hit.kind === "finding") return findings[hit.index]?.at ?? null;
  if (!rows) return null;
  const { survey, fixing } = rows.record;
  if (hit.kind === "piece") {
    const [u0, v0, u1, v1] = rows.pieces.subarray(hit.index * 4, hit.index * 4 + 4) as unknown as [
      number,
      number,
      number,
      number,
    ];
    return fromUv(rows, (u0 + u1) / 2, (v0 + v1) / 2);
  }
  if (hit.kind === "clip" || hit.kind === "screw") {
    const spot = (hit.kind === "clip" ? fixing.clips : fixing.screws)[hit.index];
    return spot ? fromUv(rows, spot.uUm / 1000, spot.vUm / 1000) : null;
  }
  if (hit.kind === "level") {
    const level = survey.levels[hit.index];
    return level ? [level.xMm, level.yMm] : null;
  }
  const ring = hit.kind === "cutout" ? survey.cutouts[hit.index]?.ring : survey.outline;
  if (!ring) return null;
  if (hit.kind === "cutout") return middle(ring.map(([x, y]): Pt => [x, y]));
  const [from, to] = [ring[hit.index]!, ring[(hit.index + 1) % ring.length]!];
  return middle([
    [from[0], from[1]],
    [to[0], to[1]],
  ]);
}

function middle(points: readonly Pt[]): Pt {
  const sum = points.reduce(([a, b], [x, y]) => [a + x, b + y], [0, 0]);
  return [sum[0] / points.length, sum[1] / points.length];
}

/**
 * The keyboard's way over the drawing: first the findings that have a place, then the boards of the row one is in.
 * `by` 1 goes on, -1 goes back; round and round.
 */
export function next(hit: Hit | null, by: 1 | -1, rows: Rows | null, findings: readonly SaidFinding[]): Hit | null {
  const row = hit?.kind === "piece" ? (rows?.record.bond.pieces[hit.index]?.row ?? 0) : 0;
  const stops: Hit[] = findings.flatMap(({ at }, index): Hit[] => (at ? [{ kind: "finding", index }] : []));
  if (rows && row < rows.from.length - 1)
    for (let k = rows.from[row]!; k < rows.from[row + 1]!; k++) stops.push({ kind: "piece", index: rows.order[k]! });
  if (stops.length === 0) return null;
  const here = hit ? stops.findIndex(({ kind, index }) => kind === hit.kind && index === hit.index) : -1;
  return stops[(here + by + stops.length + (here < 0 && by < 0 ? 1 : 0)) % stops.length]!;
}

/** The board beside a board: along the row, or over it in the row before or after. */
export function beside(rows: Rows, piece: number, way: "left" | "right" | "up" | "down"): Hit | null {
  const { row } = rows.record.bond.pieces[piece]!;
  const u = (rows.pieces[piece * 4]! + rows.pieces[piece * 4 + 2]!) / 2;
  if (way === "left" || way === "right") {
    const from = rows.from[row]!;
    const list = rows.order.subarray(from, rows.from[row + 1]!);
    const index = list[list.indexOf(piece) + (way === "right" ? 1 : -1)];
    return index === undefined ? null : { kind: "piece", index };
  }
  const other = row + (way === "up" ? 1 : -1);
  if (other < 0 || other >= rows.from.length - 1) return null;
  let best: number | null = null;
  let least = Infinity;
  const v = (rows.rowV[other * 2]! + rows.rowV[other * 2 + 1]!) / 2;
  piecesIn(rows, { u0: -Infinity, u1: Infinity, v0: v, v1: v }, (i) => {
    const off = Math.max(rows.pieces[i * 4]! - u, u - rows.pieces[i * 4 + 2]!, 0);
    if (rows.record.bond.pieces[i]!.row !== other || off >= least) return;
    least = off;
    best = i;
  });
  return best === null ? null : { kind: "piece", index: best };
}
