import { flattenEdge } from "../core/geometry/arc.ts";
import { directionOf } from "../core/geometry/direction.ts";
import { markParts } from "../papers/marks.ts";
import { readableTurn } from "../papers/readable.ts";
import type { Dash, Fill, Ink, Item, Pt, Sheet, Stroke, Tone, View } from "../papers/sheet.ts";
import { textWidthMm } from "../papers/text.ts";
import { hatchLines } from "./hatch.ts";

/** What a sheet comes down to, in paper mm, y up: what SVG and PDF paint, in this order. */
export type Op =
  | { op: "clip"; x: number; y: number; width: number; height: number }
  | { op: "unclip" }
  | { op: "path"; layer: string; parts: { points: Pt[]; closed: boolean }[]; pen: Pen | null; fill: string | null }
  | {
      op: "text";
      layer: string;
      at: Pt;
      text: string;
      heightMm: number;
      align: "left" | "centre" | "right";
      turnDeg: number;
      bold: boolean;
      colour: string;
    };
interface Pen {
  widthMm: number;
  /** Lengths of line and gap, mm; empty: solid. */
  dashMm: readonly number[];
  colour: string;
}

const PEN_MM: Record<Ink, number> = { thick: 0.5, medium: 0.35, thin: 0.18 };
export const COLOURS: Record<Tone, string> = { ink: "#1a1a1a", accent: "#1f5fa8", grey: "#8c8c8c" };
const DASHES: Record<Dash, readonly number[]> = { solid: [], dash: [3, 1.2], chain: [7, 1.2, 0.6, 1.2], dot: [0.4, 1] };
/** Chord error of a flattened arc, paper mm: finer than any printer. */
const CHORD_MM = 0.02;

/** Views first, each clipped to its rectangle, then the sheet's own items. */
export function paint(sheet: Sheet): Op[] {
  const ops: Op[] = [];
  for (const view of sheet.views) {
    ops.push({ op: "clip", x: view.x, y: view.y, width: view.width, height: view.height });
    const place = placing(view);
    for (const item of view.items) if (shows(view, item, place)) paintItem(item, place, ops);
    ops.push({ op: "unclip" });
  }
  for (const item of sheet.items) paintItem(item, PAPER, ops);
  return ops;
}

/** False where an item surely lies outside the view: parts of a large drawing carry all of it. Arcs and texts get a margin. */
function shows(view: View, item: Item, place: Placing): boolean {
  const points = item.kind === "path" ? item.points : item.kind === "region" ? item.rings.flat() : [item.at];
  const spread =
    item.kind === "text"
      ? textWidthMm(item.text, item.heightMm, item.bold) + item.heightMm
      : item.kind === "mark"
        ? item.sizeMm + 12
        : 1;
  if (item.kind === "path" && item.bulges?.some((bulge) => bulge !== 0)) return true;
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const point of points) {
    const [x, y] = place.point(point);
    left = Math.min(left, x);
    right = Math.max(right, x);
    low = Math.min(low, y);
    high = Math.max(high, y);
  }
  return (
    right + spread >= view.x &&
    left - spread <= view.x + view.width &&
    high + spread >= view.y &&
    low - spread <= view.y + view.height
  );
}

/** How site points come onto the paper. */
interface Placing {
  point(at: Pt): Pt;
  scale: number;
  turnDeg: number;
}
const PAPER: Placing = { point: (at) => at, scale: 1, turnDeg: 0 };

function placing(view: View): Placing {
  const [cos, sin] = directionOf(view.turnDeg);
  return {
    point: ([x, y]) => {
      const dx = x - view.at[0];
      const dy = y - view.at[1];
      return [view.x + (dx * cos - dy * sin) / view.scale, view.y + (dx * sin + dy * cos) / view.scale];
    },
    scale: view.scale,
    turnDeg: view.turnDeg,
  };
}

function paintItem(item: Item, place: Placing, ops: Op[]): void {
  if (item.kind === "text") paintText(item, place, ops);
  else if (item.kind === "mark") paintMark(item, place, ops);
  else paintShape(item, place, ops);
}

function paintShape(item: Item & { kind: "path" | "region" }, place: Placing, ops: Op[]): void {
  const parts =
    item.kind === "path"
      ? [{ points: flat(item.points, item.closed, item.bulges, place), closed: item.closed }]
      : item.rings.map((ring) => ({ points: ring.map(place.point), closed: true }));
  paintFill(item.layer, parts, item.fill, ops);
  if (item.stroke) ops.push({ op: "path", layer: item.layer, parts, pen: penOf(item.stroke), fill: null });
}

function paintFill(layer: string, parts: { points: Pt[]; closed: boolean }[], fill: Fill | null, ops: Op[]): void {
  if (!fill) return;
  if ("colour" in fill) {
    ops.push({ op: "path", layer, parts, pen: null, fill: fill.colour });
    return;
  }
  const lines = hatchLines(
    parts.map((part) => part.points),
    fill.hatchDeg,
    fill.spacingMm,
  );
  if (lines.length === 0) return;
  ops.push({
    op: "path",
    layer,
    parts: lines.map((points) => ({ points, closed: false })),
    pen: { widthMm: PEN_MM.thin, dashMm: [], colour: COLOURS[fill.tone] },
    fill: null,
  });
}

function paintText(item: Item & { kind: "text" }, place: Placing, ops: Op[]): void {
  const readable = readableTurn(item.turnDeg + place.turnDeg);
  const align = readable.turned ? TURNED[item.align] : item.align;
  const stand = readable.turned
    ? item.stand === "base"
      ? "top"
      : item.stand === "top"
        ? "base"
        : "middle"
    : item.stand;
  const [cos, sin] = directionOf(readable.deg);
  const drop = stand === "base" ? 0 : stand === "middle" ? item.heightMm / 2 : item.heightMm;
  const [x, y] = place.point(item.at);
  const foot: Pt = [x + drop * sin, y - drop * cos];
  const colour = COLOURS[item.tone];
  if (item.ground) {
    const width = textWidthMm(item.text, item.heightMm, item.bold);
    const left = align === "left" ? 0 : align === "right" ? -width : -width / 2;
    const pad = 0.35;
    const corners: Pt[] = [
      [left - pad, -pad],
      [left + width + pad, -pad],
      [left + width + pad, item.heightMm + pad],
      [left - pad, item.heightMm + pad],
    ];
    const points = corners.map(([a, b]): Pt => [foot[0] + a * cos - b * sin, foot[1] + a * sin + b * cos]);
    ops.push({ op: "path", layer: item.layer, parts: [{ points, closed: true }], pen: null, fill: "#ffffff" });
  }
  ops.push({
    op: "text",
    layer: item.layer,
    at: foot,
    text: item.text,
    heightMm: item.heightMm,
    align,
    turnDeg: readable.deg,
    bold: item.bold,
    colour,
  });
}
const TURNED = { left: "right", right: "left", centre: "centre" } as const;

function paintMark(item: Item & { kind: "mark" }, place: Placing, ops: Op[]): void {
  const centre = place.point(item.at);
  const colour = COLOURS[item.tone];
  for (const part of markShape(item, centre, item.turnDeg + place.turnDeg, item.sizeMm)) {
    const fill = part.fill === "none" ? null : part.fill === "ink" ? colour : "#ffffff";
    const pen = { widthMm: PEN_MM.thin, dashMm: [], colour };
    ops.push({ op: "path", layer: item.layer, parts: [{ points: part.points, closed: part.closed }], pen, fill });
  }
  if (item.number === undefined) return;
  const at: Pt = [centre[0] + item.sizeMm * 0.5 + 0.6, centre[1] - 1.25];
  const text: Item = {
    kind: "text",
    layer: item.layer,
    at,
    text: item.number,
    heightMm: 2.5,
    align: "left",
    stand: "base",
    turnDeg: 0,
    bold: true,
    tone: item.tone,
    ground: true,
  };
  paintText(text, PAPER, ops);
}

/** A symbol's strokes about a point, in the units of `size`. Arrows alone are as long as their size says in any direction; all others are turned with the drawing. */
export function markShape(
  item: Item & { kind: "mark" },
  centre: Pt,
  turnDeg: number,
  size: number,
): { points: Pt[]; closed: boolean; fill: "ink" | "paper" | "none" }[] {
  const upright =
    item.symbol === "stop" ||
    item.symbol === "warn" ||
    item.symbol === "note" ||
    item.symbol === "outlet" ||
    item.symbol === "level";
  const [cos, sin] = directionOf(upright ? 0 : turnDeg);
  return markParts(item.symbol).map((part) => ({
    points: part.points.map(
      ([x, y]): Pt => [centre[0] + size * (x * cos - y * sin), centre[1] + size * (x * sin + y * cos)],
    ),
    closed: part.closed,
    fill: part.fill,
  }));
}

function flat(points: readonly Pt[], closed: boolean, bulges: readonly number[] | undefined, place: Placing): Pt[] {
  if (!bulges || points.length < 2) return points.map(place.point);
  const out: [number, number][] = [[points[0]![0], points[0]![1]]];
  const edges = closed ? points.length : points.length - 1;
  for (let i = 0; i < edges; i++) {
    const [x0, y0] = points[i]!;
    const [x1, y1] = points[(i + 1) % points.length]!;
    flattenEdge(x0, y0, x1, y1, bulges[i] ?? 0, out, CHORD_MM * place.scale);
  }
  if (closed) out.pop();
  return out.map(place.point);
}

function penOf(stroke: Stroke): Pen {
  return { widthMm: PEN_MM[stroke.ink], dashMm: DASHES[stroke.dash], colour: COLOURS[stroke.tone] };
}
