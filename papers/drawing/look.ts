import { directionOf } from "../../core/geometry/direction.ts";
import type { DrawingLabels } from "../../words/drawing.ts";
import type { Words } from "../../words/words.ts";
import type { Item, Pt } from "../sheet.ts";
import { textWidthMm } from "../text.ts";

/** The language of a drawing: sentences, figures, and the short labels drawings need. */
export interface Tongue {
  words: Words;
  labels: DrawingLabels;
}

/** How a drawing will be shown: what is sized on paper (figures, bands, symbols) needs to know it. */
export interface Look {
  /** 1 : scale. */
  scale: number;
  /** Turn of the view on the sheet, counter-clockwise degrees. */
  turnDeg: number;
  /** Places on the sheet already taken by figures. */
  room: Room;
}

/** A box on paper, mm, in the view's own axes (site origin at 0, 0). */
interface Box {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
  /** A ground that figures had better keep off but may cover where they must. */
  soft?: boolean;
}
/** Boxes taken, in a grid of cells so that asking stays cheap with thousands of figures. */
export interface Room {
  cells: Map<string, Box[]>;
}

export function lookAt(scale: number, turnDeg = 0): Look {
  return { scale, turnDeg, room: { cells: new Map() } };
}

/** Site point to paper mm in the view's axes. */
export function onPaper(look: Look, at: Pt): Pt {
  const [cos, sin] = directionOf(look.turnDeg);
  return [(at[0] * cos - at[1] * sin) / look.scale, (at[0] * sin + at[1] * cos) / look.scale];
}

/** Takes a place if nothing stands there yet. */
export function takePlace(room: Room, box: Box): boolean {
  return takePlaces(room, [box]);
}

/** Takes all the places, or none. */
export function takePlaces(room: Room, boxes: readonly Box[], overSoft = false): boolean {
  if (!freePlaces(room, boxes, overSoft)) return false;
  for (const box of boxes) occupy(room, box);
  return true;
}

export function freePlaces(room: Room, boxes: readonly Box[], overSoft = false): boolean {
  for (const box of boxes) {
    for (const key of cellsOf(box)) {
      for (const other of room.cells.get(key) ?? []) if (overlap(box, other) && !(overSoft && other.soft)) return false;
    }
  }
  return true;
}

export function occupy(room: Room, box: Box): void {
  for (const key of cellsOf(box)) {
    const cell = room.cells.get(key);
    if (cell) cell.push(box);
    else room.cells.set(key, [box]);
  }
}

/** Keeps figures off a line. */
export function occupyLine(look: Look, from: Pt, to: Pt, halfMm = 0.3, soft = false): void {
  for (const box of lineBoxes(look, from, to, halfMm)) occupy(look.room, soft ? { ...box, soft } : box);
}

/** Small boxes along a line. */
export function lineBoxes(look: Look, from: Pt, to: Pt, halfMm: number): Box[] {
  const [a, b] = [onPaper(look, from), onPaper(look, to)];
  const length = Math.sqrt((b[0] - a[0]) * (b[0] - a[0]) + (b[1] - a[1]) * (b[1] - a[1]));
  const steps = Math.min(400, Math.max(1, Math.ceil(length / Math.max(1, halfMm * 2))));
  return Array.from({ length: steps + 1 }, (_, i) => {
    const x = a[0] + ((b[0] - a[0]) * i) / steps;
    const y = a[1] + ((b[1] - a[1]) * i) / steps;
    return { x0: x - halfMm, y0: y - halfMm, x1: x + halfMm, y1: y + halfMm };
  });
}

/** The box a text takes on paper (of its turned rectangle, the upright box round it). */
export function textBox(look: Look, item: Item & { kind: "text" }): Box {
  const at = onPaper(look, item.at);
  const width = textWidthMm(item.text, item.heightMm, item.bold);
  const left = item.align === "left" ? 0 : item.align === "right" ? -width : -width / 2;
  const low = item.stand === "base" ? 0 : item.stand === "middle" ? -item.heightMm / 2 : -item.heightMm;
  const [cos, sin] = directionOf(item.turnDeg + look.turnDeg);
  const xs: number[] = [];
  const ys: number[] = [];
  for (const [a, b] of [
    [left, low],
    [left + width, low],
    [left + width, low + item.heightMm],
    [left, low + item.heightMm],
  ] as const) {
    xs.push(at[0] + a * cos - b * sin);
    ys.push(at[1] + a * sin + b * cos);
  }
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

/** Adds a text where there is room for it; says whether it was placed. `overSoft`: also over a wall's hatch. */
export function placeText(look: Look, items: Item[], item: Item, overSoft = false): boolean {
  if (item.kind !== "text" || !takePlaces(look.room, textBoxes(look, item), overSoft)) return false;
  items.push(item);
  return true;
}

/** A text's place: one box where it stands square to the paper, else a row of small ones along it. */
export function textBoxes(look: Look, item: Item & { kind: "text" }): Box[] {
  const [cos, sin] = directionOf(item.turnDeg + look.turnDeg);
  if (Math.abs(cos * sin) < 0.01) return [grown(textBox(look, item), item.ground ? 0.4 : 0.25)];
  const at = onPaper(look, item.at);
  const width = textWidthMm(item.text, item.heightMm, item.bold);
  const half = item.heightMm / 2;
  const left = item.align === "left" ? 0 : item.align === "right" ? -width : -width / 2;
  const rise = item.stand === "base" ? half : item.stand === "middle" ? 0 : -half;
  const count = Math.max(1, Math.ceil(width / half));
  return Array.from({ length: count + 1 }, (_, i) => {
    const a = left + (width * i) / count;
    const [x, y] = [at[0] + a * cos - rise * sin, at[1] + a * sin + rise * cos];
    return grown({ x0: x, y0: y, x1: x, y1: y }, half * 0.85);
  });
}

/** The first of several places for a text that has room. */
export function placeFirst(look: Look, items: Item[], choices: readonly Item[]): boolean {
  return choices.some((item) => placeText(look, items, item));
}

export function grown(box: Box, by: number): Box {
  return { x0: box.x0 - by, y0: box.y0 - by, x1: box.x1 + by, y1: box.y1 + by };
}

function overlap(a: Box, b: Box): boolean {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

const CELL_MM = 10;
function cellsOf(box: Box): string[] {
  const keys: string[] = [];
  for (let i = Math.floor(box.x0 / CELL_MM); i <= Math.floor(box.x1 / CELL_MM); i++) {
    for (let j = Math.floor(box.y0 / CELL_MM); j <= Math.floor(box.y1 / CELL_MM); j++) keys.push(`${i},${j}`);
  }
  return keys;
}
