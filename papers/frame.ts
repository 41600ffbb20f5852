import { directionOf } from "../core/geometry/direction.ts";
import type { DrawingKind, DrawingLabels } from "../words/drawing.ts";
import { arrow } from "./drawing/base.ts";
import type { Area } from "./fit.ts";
import { box, line, MEDIUM, paragraph, stroke, THICK, THIN, text, textIn } from "./ink.ts";
import type { Item, Pt } from "./sheet.ts";

/** ISO A sizes, landscape, mm; A4 to A1. */
export const SIZES = { A4: [297, 210], A3: [420, 297], A2: [594, 420], A1: [841, 594] } as const;
export type Size = keyof typeof SIZES;
/** Frame of ISO 5457: 20 mm at the filing edge, 10 mm elsewhere (second-hand). */
const FILING_MM = 20;
const EDGE_MM = 10;

/** The space within the frame. */
export function frameArea(size: Size): Area {
  const [width, height] = SIZES[size];
  return { x: FILING_MM, y: EDGE_MM, width: width - FILING_MM - EDGE_MM, height: height - 2 * EDGE_MM };
}

/** Frame and the four centring marks. */
export function drawFrame(size: Size): Item[] {
  const [width, height] = SIZES[size];
  const area = frameArea(size);
  const [cx, cy] = [width / 2, height / 2];
  return [
    box("frame", area.x, area.y, area.width, area.height, THICK),
    line("frame", [cx, 5], [cx, EDGE_MM], THICK),
    line("frame", [cx, height - 5], [cx, height - EDGE_MM], THICK),
    line("frame", [5, cy], [FILING_MM, cy], THICK),
    line("frame", [width - 5, cy], [width - EDGE_MM, cy], THICK),
  ];
}

interface BlockData {
  kind: DrawingKind;
  title: string;
  /** Short hash of the job. */
  number: string;
  sheet: number;
  sheets: number;
  scale: string;
  size: Size;
}
export const BLOCK_MM = 50;

/** Title block with the fields of ISO 7200; what is for people to fill in stays blank. Lower left corner at x, y. */
export function drawTitleBlock(data: BlockData, labels: DrawingLabels, x: number, y: number, width: number): Item[] {
  const { block } = labels;
  const items: Item[] = [box("frame", x, y, width, BLOCK_MM, THICK)];
  const rowTops = [BLOCK_MM, 41, 22, 11, 0];
  const field = (left: number, share: number, row: number, label: string, value: string, big = false): void => {
    const x0 = x + left * width;
    const wide = share * width;
    const top = y + rowTops[row]!;
    items.push(textIn([x0 + 1, top - 3.3], label, wide - 2, {}));
    if (big)
      items.push(...paragraph([x0 + 1, top - 5], value, wide - 2, { heightMm: 3.5, bold: true }, 2).items.map(onFrame));
    else if (value !== "") items.push(textIn([x0 + 1, top - 9], value, wide - 2, { heightMm: 3, bold: true }));
    if (left > 0) items.push(line("frame", [x0, top], [x0, y + rowTops[row + 1]!], THIN));
  };
  for (const row of [1, 2, 3])
    items.push(line("frame", [x, y + rowTops[row]!], [x + width, y + rowTops[row]!], row === 2 ? MEDIUM : THIN));
  field(0, 0.62, 0, block.owner, "");
  field(0.62, 0.38, 0, block.revision, "");
  field(0, 1, 1, block.title, data.title, true);
  field(0, 0.37, 2, block.type, labels.type[data.kind]);
  field(0.37, 0.33, 2, block.number, `${data.number}-${labels.letter[data.kind]}`);
  field(0.7, 0.14, 2, block.sheet, `${data.sheet}/${data.sheets}`);
  field(0.84, 0.16, 2, block.scale, data.scale);
  field(0, 0.28, 3, block.created, "");
  field(0.28, 0.28, 3, block.approved, "");
  field(0.56, 0.2, 3, block.date, "");
  field(0.76, 0.24, 3, block.units, data.size);
  return items.map(onFrame);
}

function onFrame(item: Item): Item {
  return { ...item, layer: "frame" };
}

export const BAR_MM = 14;
/** The check bar: 100 mm in tens, with its figures and what it is for. Lower left corner at x, y. */
export function drawBar(labels: DrawingLabels, x: number, y: number, width: number): Item[] {
  const foot = y + 6.4;
  const items: Item[] = [box("frame", x, foot, 100, 1.6, THIN)];
  for (let k = 0; k < 10; k++) {
    if (k % 2 === 0) items.push(box("frame", x + k * 10, foot, 10, 1.6, null, { colour: "#1a1a1a" }));
  }
  for (const mm of [0, 50, 100])
    items.push(
      text([x + mm, foot + 2.4], String(mm), {
        layer: "frame",
        align: mm === 0 ? "left" : mm === 100 ? "right" : "centre",
      }),
    );
  items.push(textIn([x, y + 2], labels.bar, width, { layer: "frame" }));
  return items;
}

/** Directions on this sheet: the site's x and y, and along the rows. About 18 mm square round its middle. */
export function drawAxes(labels: DrawingLabels, at: Pt, viewTurnDeg: number, rowsDeg: number): Item[] {
  const items: Item[] = [];
  const put = (deg: number, length: number, label: string, accent: boolean): void => {
    const [cos, sin] = directionOf(deg + viewTurnDeg);
    items.push(...arrow({ scale: 1 }, at, [cos, sin], length, "frame"));
    const tip: Pt = [at[0] + cos * (length + 2.4), at[1] + sin * (length + 2.4)];
    items.push(
      text(tip, label, {
        layer: "frame",
        align: cos > 0.5 ? "left" : cos < -0.5 ? "right" : "centre",
        stand: "middle",
        bold: accent,
        tone: accent ? "accent" : "ink",
      }),
    );
  };
  put(0, 8, labels.axes.x, false);
  put(90, 8, labels.axes.y, false);
  const [cos, sin] = directionOf(rowsDeg + viewTurnDeg);
  const middle: Pt = [at[0] - 17, at[1] + 4];
  const ends = [-6, 6].map((by): Pt => [middle[0] + cos * by, middle[1] + sin * by]);
  items.push(line("frame", ends[0]!, ends[1]!, stroke("thick", "solid", "accent")));
  items.push(
    text([middle[0] + sin * 1.2, middle[1] - cos * 1.2], labels.axes.rows, {
      layer: "frame",
      tone: "accent",
      align: "centre",
      stand: "top",
      turnDeg: rowsDeg + viewTurnDeg,
    }),
  );
  return items;
}

export const BANNER_MM = 13;
/** Across the head of the drawing, when nothing may be drilled after it. */
export function drawBanner(labels: DrawingLabels, area: Area): Item[] {
  const y = area.y + area.height - BANNER_MM;
  const items: Item[] = [box("frame", area.x, y, area.width, BANNER_MM, THICK)];
  items.push(
    box("frame", area.x, y, 6, BANNER_MM, null, { hatchDeg: 45, spacingMm: 1.2, tone: "ink" }),
    box("frame", area.x + area.width - 6, y, 6, BANNER_MM, null, { hatchDeg: 45, spacingMm: 1.2, tone: "ink" }),
  );
  items.push(
    text([area.x + area.width / 2, y + 7.3], labels.banner.notForDrilling, {
      layer: "frame",
      heightMm: 4,
      bold: true,
      align: "centre",
    }),
  );
  items.push(
    textIn([area.x + area.width / 2, y + 2.4], labels.banner.why, area.width - 14, { layer: "frame", align: "centre" }),
  );
  return items;
}
