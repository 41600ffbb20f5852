import type { PlanRecord } from "../core/plan/record.ts";
import type { Words } from "../words/words.ts";
import { box, line, MEDIUM, mark, polygon, stroke, THICK, THIN, text } from "./ink.ts";
import type { CardClip, RowCard } from "./rowCards.ts";
import type { Item, Pt } from "./sheet.ts";
import { textWidthMm } from "./text.ts";

const TEXT_MM = 3.5;
/** Height of the row on the card: not to scale, so that it can be read; lengths are. */
const STRIP_MM = 12;
/** Least distance between two figures that stand upright beside clip marks. */
const PITCH_MM = 4.6;
const GAP_MM = 1.2;

/**
 * A row as the fitter sees it before him: pieces with their number, cut ends (one stroke) and ripped edges (two), joints
 * in running millimetres above, clip marks of the near edge below, of the far edge on top. Lengths to scale.
 */
export function cardStrip(
  card: RowCard,
  record: PlanRecord,
  words: Words,
  place: { x: number; top: number; width: number },
): { items: Item[]; heightMm: number } {
  const w = words.papers.cards;
  const span = Math.max(1, card.u1Um - card.u0Um);
  const inset = 6;
  const toX = (um: number): number => place.x + inset + ((um - card.u0Um) / span) * (place.width - 2 * inset);
  const alongX = (alongMm: number): number => toX(card.u0Um + alongMm * 1000);
  const released = record.site.drillingReleased;
  const items: Item[] = [];
  let y = place.top;
  if (released && card.far.length > 0) {
    y -= figureRoom(card.far, words) + 1.5;
    items.push(...clipFigures(card.far, alongX, y + 1.5, 1, words));
  } else {
    y -= TEXT_MM + 1.5;
  }
  if (card.part === "row") items.push(...jointFigures(card, alongX, y + 1, words));
  const bottom = y - STRIP_MM;
  items.push(...boardItems(card, record, toX, bottom));
  if (released)
    for (const end of card.ends)
      items.push(mark("clips", [clampX(alongX(end.alongMm), place), bottom + STRIP_MM * 0.25], "clip-end", 3));
  if (released)
    for (const [clips, at] of [
      [card.near, bottom],
      [card.far, bottom + STRIP_MM],
    ] as const) {
      for (const clip of clips) items.push(mark("clips", [alongX(clip.alongMm), at], MARKS[clip.kind], 3));
    }
  y = bottom - 1.5;
  if (!released) {
    items.push(box("frame", place.x, y - 8.5, place.width, 7.5, THICK));
    items.push(
      text([place.x + place.width / 2, y - 6.5], w.noDrill, { heightMm: TEXT_MM + 0.5, bold: true, align: "centre" }),
    );
    return { items, heightMm: place.top - (y - 10) };
  }
  if (card.near.length > 0) {
    items.push(...clipFigures(card.near, alongX, y, -1, words));
    y -= figureRoom(card.near, words);
  }
  return { items, heightMm: place.top - y };
}

const MARKS = { start: "clip-start", seam: "clip-seam", last: "clip-last", end: "clip-end" } as const;

function clampX(x: number, place: { x: number; width: number }): number {
  return Math.min(place.x + place.width - 1.5, Math.max(place.x + 1.5, x));
}

/** The pieces with their strokes and numbers. */
function boardItems(card: RowCard, record: PlanRecord, toX: (um: number) => number, bottom: number): Item[] {
  const items: Item[] = [];
  const stretch = card.pieces.map((cut) => record.bond.pieces[cut.piece]!);
  const v0 = Math.min(...stretch.map((piece) => piece.v0Um));
  const v1 = Math.max(...stretch.map((piece) => piece.v1Um));
  const toY = (um: number): number => bottom + ((um - v0) / Math.max(1, v1 - v0)) * STRIP_MM;
  for (const [i, piece] of stretch.entries()) {
    const cut = card.pieces[i]!;
    for (const ring of [piece.region.outer, ...piece.region.holes]) {
      items.push(
        polygon(
          "boards",
          ring.map(([u, v]): Pt => [toX(u), toY(v)]),
          MEDIUM,
        ),
      );
    }
    const middle = (toY(piece.v0Um) + toY(piece.v1Um)) / 2;
    const ends = [toX(piece.u0Um), toX(piece.u1Um)] as const;
    const cutHere = [
      cut.cutEnds === "left" || cut.cutEnds === "both",
      cut.cutEnds === "right" || cut.cutEnds === "both",
    ];
    cutHere.forEach((is, k) => {
      const inward = k === 0 ? 1 : -1;
      if (is)
        items.push(
          line("cut-ends", [ends[k]! - inward * 0.6, middle], [ends[k]! + inward * 3, middle], stroke("medium")),
        );
    });
    piece.edges.forEach((edge, k) => {
      if (edge !== "ripped") return;
      const at = toY(k === 0 ? piece.v0Um : piece.v1Um);
      const inward = k === 0 ? 1 : -1;
      const x = ends[0] + (ends[1] - ends[0]) * 0.12;
      for (const aside of [-0.6, 0.6])
        items.push(line("ripped", [x + aside, at - inward * 0.6], [x + aside, at + inward * 3], stroke("medium")));
    });
    if (ends[1] - ends[0] < 3) continue;
    const name = `${i + 1}`;
    const room = ends[1] - ends[0] - 8;
    const full = `${name}  ${cut.id}`;
    const heightMm = toY(piece.v1Um) - toY(piece.v0Um) < 5.5 ? TEXT_MM : TEXT_MM + 0.5;
    const said = textWidthMm(full, heightMm, true) <= room ? full : name;
    items.push(
      text([(ends[0] + ends[1]) / 2, middle], said, {
        heightMm,
        bold: true,
        align: "centre",
        stand: "middle",
      }),
    );
  }
  return items;
}

/** Ends and joints in running millimetres above the row; where two would touch, the later one is left to the table. */
function jointFigures(card: RowCard, alongX: (mm: number) => number, y: number, words: Words): Item[] {
  const items: Item[] = [];
  let free = -Infinity;
  const all = [0, ...card.jointsMm, card.spansMm[card.spansMm.length - 1]![1]];
  for (const [i, along] of all.entries()) {
    const said = words.write.mm(along);
    const half = textWidthMm(said, TEXT_MM) / 2;
    const x = alongX(along);
    items.push(line("dimensions", [x, y - 1], [x, y - 0.2], THIN));
    if (x - half < free + GAP_MM) continue;
    items.push(
      text([x, y], said, {
        heightMm: TEXT_MM,
        align: "centre",
        layer: "dimensions",
        bold: i > 0 && i < all.length - 1,
      }),
    );
    free = x + half;
  }
  return items;
}

/**
 * Clip figures standing upright, each joined to its mark; crowded ones are moved apart just enough, in order.
 * `side` 1: above `y`, reading upward from it; -1: below.
 */
function clipFigures(
  clips: readonly CardClip[],
  alongX: (mm: number) => number,
  y: number,
  side: 1 | -1,
  words: Words,
): Item[] {
  const items: Item[] = [];
  const wish = clips.map((clip) => alongX(clip.alongMm));
  const stand = spread(wish, PITCH_MM, alongX(0) - 4, alongX(0) + 182 + 4);
  for (const [i, clip] of clips.entries()) {
    const knee = y + side * 1.5;
    items.push(line("dimensions", [wish[i]!, y - side * 0.5], [stand[i]!, knee + side * 1.2], THIN));
    items.push(
      text([stand[i]!, knee + side * 1.8], words.write.mm(clip.alongMm), {
        heightMm: TEXT_MM,
        align: side === 1 ? "left" : "right",
        stand: "middle",
        turnDeg: 90,
        layer: "dimensions",
        bold: true,
      }),
    );
  }
  return items;
}

/** Height that the figures of some clips take beside the row. */
function figureRoom(clips: readonly CardClip[], words: Words): number {
  return 3.6 + Math.max(...clips.map((clip) => textWidthMm(words.write.mm(clip.alongMm), TEXT_MM, true)));
}

/** Places at least `pitch` apart, in order, as near to the wishes as that allows; within [low, high] where they fit. */
export function spread(wishes: readonly number[], pitch: number, low: number, high: number): number[] {
  // Blocks that touch move as one: each keeps the mean of what its members wish (isotonic regression by pooling).
  const blocks: { start: number; count: number; sum: number }[] = [];
  wishes.forEach((wish, i) => {
    blocks.push({ start: i, count: 1, sum: wish - i * pitch });
    for (;;) {
      const last = blocks[blocks.length - 1]!;
      const before = blocks[blocks.length - 2];
      if (!before || before.sum / before.count <= last.sum / last.count) break;
      blocks.pop();
      before.count += last.count;
      before.sum += last.sum;
    }
  });
  const top = high - (wishes.length - 1) * pitch;
  return blocks.flatMap((block) => {
    const base = Math.max(low, Math.min(Math.max(low, top), block.sum / block.count));
    return Array.from({ length: block.count }, (_, k) => base + (block.start + k) * pitch);
  });
}
