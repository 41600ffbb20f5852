/** Short ways to say the items of a sheet (sheet.ts). Sizes in paper mm on a sheet, site mm in a view. */
import type { Dash, Fill, Ink, Item, Layer, MarkSymbol, Pt, Stroke, Tone } from "./sheet.ts";
import { shorten, wrapText } from "./text.ts";

export const THICK = stroke("thick");
export const MEDIUM = stroke("medium");
export const THIN = stroke("thin");
export const GREY = stroke("thin", "solid", "grey");

export function stroke(ink: Ink, dash: Dash = "solid", tone: Tone = "ink"): Stroke {
  return { ink, dash, tone };
}

export function line(layer: Layer, from: Pt, to: Pt, pen: Stroke = THIN): Item {
  return { kind: "path", layer, points: [from, to], closed: false, stroke: pen, fill: null };
}

export function polyline(layer: Layer, points: readonly Pt[], pen: Stroke = THIN): Item {
  return { kind: "path", layer, points, closed: false, stroke: pen, fill: null };
}

export function polygon(
  layer: Layer,
  points: readonly Pt[],
  pen: Stroke | null = THIN,
  fill: Fill | null = null,
): Item {
  return { kind: "path", layer, points, closed: true, stroke: pen, fill };
}

/** A box from its lower left corner. */
export function box(
  layer: Layer,
  x: number,
  y: number,
  width: number,
  height: number,
  pen: Stroke | null = THIN,
  fill: Fill | null = null,
): Item {
  const points: Pt[] = [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
  return polygon(layer, points, pen, fill);
}

interface TextLook {
  layer?: Layer;
  /** Height of the capitals, paper mm; 2.5 least on drawings, 3.5 on cards for the site. */
  heightMm?: number;
  align?: "left" | "centre" | "right";
  stand?: "base" | "middle" | "top";
  turnDeg?: number;
  bold?: boolean;
  tone?: Tone;
}

export function text(at: Pt, words: string, look: TextLook = {}): Item {
  return {
    kind: "text",
    layer: look.layer ?? "text",
    at,
    text: words,
    heightMm: look.heightMm ?? 2.5,
    align: look.align ?? "left",
    stand: look.stand ?? "base",
    turnDeg: look.turnDeg ?? 0,
    bold: look.bold ?? false,
    tone: look.tone ?? "ink",
  };
}

/** One line on a sheet, shortened with an ellipsis to `widthMm`. */
export function textIn(at: Pt, words: string, widthMm: number, look: TextLook = {}): Item {
  return text(at, shorten(words, widthMm, look.heightMm ?? 2.5, look.bold), look);
}

/**
 * Wrapped text on a sheet, its top left corner at `at` (or top centre, top right with `align`).
 * @returns the items and the paper height they take, mm (line pitch 1.6 capital heights).
 */
export function paragraph(
  at: Pt,
  words: string,
  widthMm: number,
  look: TextLook = {},
  maxLines = 1000,
): { items: Item[]; heightMm: number } {
  const height = look.heightMm ?? 2.5;
  const lines = wrapText(words, widthMm, height, look.bold, maxLines);
  const pitch = LINE_PITCH * height;
  const items = lines.map((words, i) => text([at[0], at[1] - height - i * pitch], words, { ...look, stand: "base" }));
  return { items, heightMm: height + (lines.length - 1) * pitch };
}
/** Distance of two lines' feet, in heights of the capitals. */
export const LINE_PITCH = 1.65;

export function mark(
  layer: Layer,
  at: Pt,
  symbol: MarkSymbol,
  sizeMm: number,
  turnDeg = 0,
  tone: Tone = "ink",
  number?: string,
): Item {
  const item: Item = { kind: "mark", layer, at, symbol, sizeMm, turnDeg, tone };
  return number === undefined ? item : { ...item, number };
}
