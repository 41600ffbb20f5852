import { DxfWriter, LWPolylineFlags, type LWPolylineVertex, TextHorizontalAlignment, Units } from "@tarikjabiri/dxf";
import { directionOf } from "../core/geometry/direction.ts";
import { readableTurn } from "../papers/readable.ts";
import type { Dash, Fill, Item, Layer, Paper, Pt, Stroke } from "../papers/sheet.ts";
import { hatchLines } from "./hatch.ts";
import { COLOURS, markShape } from "./paint.ts";

/**
 * A paper's views as DXF, in millimetres of the site, 1:1: what stands on the sheet around them (frame, title block,
 * lists) stays on paper. Plain layer names, bulges kept, text and symbols at their paper size times the scale.
 * Where a paper shows parts at a larger scale, those are what is written; what several sheets show is drawn once. Same paper, same text.
 */
export function writeDxf(paper: Paper): string {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  dxf.setVariable("$MEASUREMENT", { 70: 1 });
  const all = paper.sheets.flatMap((sheet) => sheet.views);
  const scale = all.reduce((least, view) => Math.min(least, view.scale), all[0]?.scale ?? 1);
  const views = all.filter((view) => view.scale === scale);
  for (const [name, elements] of Object.entries(LINES))
    dxf.addLType(
      name.toUpperCase(),
      name,
      elements.map((mm) => mm * scale),
    );
  const seen = new Set<string>();
  const layers = new Set<Layer>();
  const extent = { left: Infinity, low: Infinity };
  const pen: Writer = { dxf, scale };
  const put = (item: Item): void => {
    if (!layers.has(item.layer)) dxf.addLayer(item.layer, LAYER_COLOURS[item.layer] ?? 7, "Continuous");
    layers.add(item.layer);
    draw(pen, item);
  };
  for (const item of views.flatMap((view) => view.items)) {
    const key = JSON.stringify(item);
    if (seen.has(key)) continue;
    seen.add(key);
    for (const [x, y] of pointsOf(item)) {
      if (x < extent.left) extent.left = x;
      if (y < extent.low) extent.low = y;
    }
    put(item);
  }
  if (extent.low < Infinity) {
    (paper.notes ?? []).forEach((note, i) => {
      put({
        kind: "text",
        layer: "text",
        at: [extent.left, extent.low - (15 + i * 6) * scale],
        text: note,
        heightMm: 3.5,
        align: "left",
        stand: "top",
        turnDeg: 0,
        bold: false,
        tone: "ink",
      });
    });
  }
  return dxf.stringify();
}

interface Writer {
  dxf: DxfWriter;
  scale: number;
}
type Look = { layerName: string; trueColor?: string; lineType?: string };

const LINES: Record<Exclude<Dash, "solid">, number[]> = {
  dash: [3, -1.2],
  chain: [7, -1.2, 0.6, -1.2],
  dot: [0.4, -1],
};
/** AutoCAD colour numbers; 7 is the drawing's own ink. */
const LAYER_COLOURS: Partial<Record<Layer, number>> = {
  datum: 5,
  grain: 8,
  "no-drill": 1,
  findings: 1,
  dimensions: 8,
  contours: 8,
};

function draw(pen: Writer, item: Item): void {
  if (item.kind === "text") drawText(pen, item);
  else if (item.kind === "mark") drawMark(pen, item);
  else drawShape(pen, item);
}

function drawShape(pen: Writer, item: Item & { kind: "path" | "region" }): void {
  const rings = item.kind === "path" ? [item.points] : item.rings;
  const closed = item.kind === "region" || item.closed;
  const bulges = item.kind === "path" ? item.bulges : undefined;
  if (item.fill) drawFill(pen, item.layer, rings, item.fill, item.stroke === null, bulges);
  if (item.stroke) for (const ring of rings) polyline(pen.dxf, ring, closed, look(item.layer, item.stroke), bulges);
}

/** A flat colour has no black-and-white meaning of its own: its outline carries the colour. A hatch is drawn line by line. */
function drawFill(
  pen: Writer,
  layer: Layer,
  rings: readonly (readonly Pt[])[],
  fill: Fill,
  alone: boolean,
  bulges: readonly number[] | undefined,
): void {
  if ("colour" in fill) {
    if (alone)
      for (const ring of rings)
        polyline(pen.dxf, ring, true, { layerName: layer, trueColor: trueColour(fill.colour) }, bulges);
    return;
  }
  for (const [from, to] of hatchLines(rings, fill.hatchDeg, fill.spacingMm * pen.scale)) {
    pen.dxf.addLine({ x: r(from[0]), y: r(from[1]), z: 0 }, { x: r(to[0]), y: r(to[1]), z: 0 }, { layerName: layer });
  }
}

function drawText(pen: Writer, item: Item & { kind: "text" }): void {
  const { deg, turned } = readableTurn(item.turnDeg);
  const height = item.heightMm * pen.scale;
  const align = item.align === "centre" ? "centre" : turned === (item.align === "left") ? "right" : "left";
  const stand = turned ? (item.stand === "base" ? "top" : item.stand === "top" ? "base" : "middle") : item.stand;
  const drop = stand === "base" ? 0 : stand === "middle" ? height / 2 : height;
  const [cos, sin] = directionOf(deg);
  const at = { x: r(item.at[0] + drop * sin), y: r(item.at[1] - drop * cos), z: 0 };
  const tone = item.tone === "ink" ? {} : { trueColor: trueColour(COLOURS[item.tone]) };
  const place =
    align === "left"
      ? {}
      : {
          horizontalAlignment: align === "right" ? TextHorizontalAlignment.Right : TextHorizontalAlignment.Center,
          secondAlignmentPoint: at,
        };
  pen.dxf.modelSpace.addText(at, r(height), dxfText(item.text), {
    layerName: item.layer,
    rotation: r(deg),
    ...place,
    ...tone,
  });
}

function drawMark(pen: Writer, item: Item & { kind: "mark" }): void {
  const size = item.sizeMm * pen.scale;
  const tone = item.tone === "ink" ? {} : { trueColor: trueColour(COLOURS[item.tone]) };
  for (const part of markShape(item, item.at, item.turnDeg, size))
    polyline(pen.dxf, part.points, part.closed, { layerName: item.layer, ...tone });
  if (item.number === undefined) return;
  const at: Pt = [item.at[0] + size * 0.5 + 0.6 * pen.scale, item.at[1]];
  drawText(pen, {
    kind: "text",
    layer: item.layer,
    at,
    text: item.number,
    heightMm: 2.5,
    align: "left",
    stand: "middle",
    turnDeg: 0,
    bold: true,
    tone: item.tone,
  });
}

function polyline(
  dxf: DxfWriter,
  points: readonly Pt[],
  closed: boolean,
  options: Look,
  bulges?: readonly number[],
): void {
  const vertices = points.map(([x, y], i): LWPolylineVertex => {
    const bulge = bulges?.[i] ?? 0;
    return bulge === 0 ? { point: { x: r(x), y: r(y) } } : { point: { x: r(x), y: r(y) }, bulge };
  });
  dxf.addLWPolyline(vertices, { ...options, flags: closed ? LWPolylineFlags.Closed : LWPolylineFlags.None });
}

function look(layer: Layer, stroke: Stroke): Look {
  const tone = stroke.tone === "ink" ? {} : { trueColor: trueColour(COLOURS[stroke.tone]) };
  return { layerName: layer, ...(stroke.dash === "solid" ? {} : { lineType: stroke.dash.toUpperCase() }), ...tone };
}

/**
 * Text as a DXF holds it: one line, plain ASCII. Anything else is written \U+XXXX, with it the backslash and the caret
 * that begin control sequences; %% (which would begin one too) as three signs for each.
 */
export function dxfText(text: string): string {
  let out = "";
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    if (unit === 0x25) out += text[i + 1] === "%" || text[i - 1] === "%" ? "%%%" : "%";
    else if (unit < 0x20 || unit === 0x7f) out += unit === 9 || unit === 10 || unit === 13 ? " " : "\\U+FFFD";
    else if (unit > 0x7e || unit === 0x5c || unit === 0x5e)
      out += `\\U+${unit.toString(16).toUpperCase().padStart(4, "0")}`;
    else out += text[i];
  }
  return out;
}

function pointsOf(item: Item): readonly Pt[] {
  return item.kind === "path" ? item.points : item.kind === "region" ? item.rings.flat() : [item.at];
}

function trueColour(hex: string): string {
  return String(Number.parseInt(hex.slice(1), 16));
}

/** To 0.001 mm; never minus zero, never an exponent. */
function r(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}
