import { toMm } from "../../core/base/units.ts";
import { toSite } from "../../core/geometry/frame.ts";
import type { PlanRecord } from "../../core/plan/record.ts";
import { GREY, line, stroke, text } from "../ink.ts";
import { rowNumber } from "../rowNumber.ts";
import type { Item, Pt } from "../sheet.ts";
import { type Look, placeText } from "./look.ts";

/** Boards as boards: outline, a hint of grain along the row, one short stroke at a cut end, two at a ripped edge. */
export function drawBoards(record: PlanRecord, look: Look): Item[] {
  const { pieces } = record.bond;
  const { frame } = record.setout;
  const near = look.scale <= 50;
  const pen = stroke(look.scale <= 20 ? "medium" : "thin");
  const items: Item[] = [];
  pieces.forEach((piece, i) => {
    const rings = [piece.region.outer, ...piece.region.holes].map((ring) =>
      ring.map(([u, v]): Pt => toSite(frame, u, v)),
    );
    items.push(
      rings.length === 1
        ? { kind: "path", layer: "boards", points: rings[0]!, closed: true, stroke: pen, fill: null }
        : { kind: "region", layer: "boards", rings, stroke: pen, fill: null },
    );
    const strokes = near ? grainStrokes(record, i) : [];
    if (look.scale <= 100) strokes.push(...endStrokes(record, i, look.scale));
    for (const { layer, from, to } of strokes)
      items.push(line(layer, toSite(frame, ...from), toSite(frame, ...to), layer === "grain" ? GREY : stroke("thin")));
  });
  return items;
}

/** Rows' numbers on boards, near their ends, so that a part of a drawing can be read without the ends of its rows. */
export function drawRowNames(record: PlanRecord, look: Look): Item[] {
  const { frame } = record.setout;
  const items: Item[] = [];
  record.bond.pieces.forEach((piece, i) => {
    if (toMm(piece.widthUm) / look.scale < 4 || i % 2 === 1 || piece.lengthUm < 25_000 * look.scale) return;
    const at = toSite(frame, piece.u0Um + 4_000 * look.scale, (piece.v0Um + piece.v1Um) / 2);
    const item = text(at, rowNumber(piece.row), {
      layer: "text",
      stand: "middle",
      tone: "grey",
      turnDeg: frame.angleDeg,
    });
    if (item.kind === "text") placeText(look, items, { ...item, ground: true });
  });
  return items;
}

/** Size of a clip's symbol at 1 : `scale`, paper mm: never so large that it hides the board. */
export function clipSizeMm(record: PlanRecord, scale: number): number {
  return Math.min(2.4, Math.max(0.8, (toMm(record.setout.boardWidthUm) / scale) * 0.75));
}

/** Boards as a pale ground for what is fixed to them. */
export function drawBoardsPale(record: PlanRecord): Item[] {
  const { frame } = record.setout;
  return record.bond.pieces.map((piece) => ({
    kind: "region" as const,
    layer: "boards" as const,
    rings: [piece.region.outer, ...piece.region.holes].map((ring) => ring.map(([u, v]): Pt => toSite(frame, u, v))),
    stroke: GREY,
    fill: null,
  }));
}

/** A short line on a board, um in the row frame. */
export interface BoardStroke {
  layer: "grain" | "cut-ends" | "ripped";
  from: readonly [uUm: number, vUm: number];
  to: readonly [uUm: number, vUm: number];
}

/** Two short grain lines on a plain board, at places that differ from board to board but never from run to run. */
export function grainStrokes(record: PlanRecord, index: number): BoardStroke[] {
  const piece = record.bond.pieces[index]!;
  if (!piece.plain || piece.lengthUm < 400_000 || piece.widthUm < 60_000) return [];
  return [0.36, 0.68].map((share, k) => {
    const chance = ((index * 37 + k * 53) % 100) / 100;
    const v = piece.v0Um + piece.widthUm * share;
    const u = piece.u0Um + piece.lengthUm * (0.15 + 0.45 * chance);
    const length = piece.lengthUm * (0.12 + 0.12 * (1 - chance));
    return { layer: "grain", from: [u, v], to: [u + length, v] };
  });
}

/** One short stroke at each end a saw made, two at each ripped edge; sized for 1 : `scale`. */
export function endStrokes(record: PlanRecord, index: number, scale: number): BoardStroke[] {
  const piece = record.bond.pieces[index]!;
  const ends = record.cutting.ends[index] ?? piece.ends;
  const half = Math.min(900 * scale, piece.widthUm * 0.4, piece.lengthUm * 0.3);
  const strokes: BoardStroke[] = [];
  const put = (layer: "cut-ends" | "ripped", u0: number, v0: number, u1: number, v1: number) => {
    strokes.push({ layer, from: [u0, v0], to: [u1, v1] });
  };
  const [left, right] = endPoints(piece.region.outer, piece.u0Um, piece.u1Um, (piece.v0Um + piece.v1Um) / 2);
  for (const [k, at] of [left, right].entries()) {
    if (ends[k] !== "cut") continue;
    const inward = k === 0 ? 1 : -1;
    put("cut-ends", at[0] - inward * 0.15 * half, at[1], at[0] + inward * 1.6 * half, at[1]);
  }
  piece.edges.forEach((edge, k) => {
    if (edge !== "ripped") return;
    const v = k === 0 ? piece.v0Um : piece.v1Um;
    const inward = k === 0 ? 1 : -1;
    const u = (piece.u0Um + piece.u1Um) / 2;
    for (const aside of [-350 * scale, 350 * scale])
      put("ripped", u + aside, v - inward * 0.15 * half, u + aside, v + inward * 1.6 * half);
  });
  return strokes;
}

/** Where a piece's two ends lie at mid width (slanting ends have theirs elsewhere than at the extents). */
function endPoints(
  ring: readonly (readonly [number, number])[],
  u0: number,
  u1: number,
  v: number,
): [[number, number], [number, number]] {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    if (a[1] <= v === b[1] <= v) continue;
    const u = a[0] + ((v - a[1]) * (b[0] - a[0])) / (b[1] - a[1]);
    if (u < low) low = u;
    if (u > high) high = u;
  }
  return [
    [low === Infinity ? u0 : low, v],
    [high === -Infinity ? u1 : high, v],
  ];
}
