import type { PlanRecord } from "../core/plan/record.ts";
import { lookAt, onPaper, type Tongue } from "./drawing/look.ts";
import { boundsOf, ringPoints } from "./drawing/plane.ts";
import { extentOf } from "./extent.ts";
import { type Area, type Draw, SCALES } from "./fit.ts";
import { box, line, polygon, stroke, THIN, text } from "./ink.ts";
import { type Block, headed } from "./margin.ts";
import type { Item, Pt, View } from "./sheet.ts";

/** A part of a drawing at a larger scale, one sheet each. */
export interface Part {
  column: number;
  row: number;
  columns: number;
  rows: number;
  area: Area;
  view: View;
}
export interface Key {
  parts: readonly Part[];
  index: number;
  /** Number of the first part's sheet. */
  first: number;
}

/** Each part shows this much beyond its match lines, paper mm. */
const LAP_MM = 7;
/** A board is told from the next, and a figure fits on it, from this height on paper. */
const CLEAR_MM = 4;
/** Beyond this many sheets a larger scale helps nobody. */
const MOST_PARTS = 12;

/**
 * Parts of a drawing at the smallest standard scale that shows `detailMm` at least 4 mm high; none where the whole
 * drawing shows it already, or where it would take more than twelve sheets.
 */
export function partsOf(draw: Draw, whole: View, detailMm: number, area: Area): Part[] {
  if (detailMm / whole.scale >= CLEAR_MM) return [];
  const scale = [...SCALES].reverse().find((scale) => detailMm / scale >= CLEAR_MM);
  if (scale === undefined) return [];
  const look = lookAt(scale, whole.turnDeg);
  const site = boundsOf(
    whole.items.flatMap((item) =>
      item.kind === "path" && item.layer === "outline" ? item.points.map((point) => onPaper(look, point)) : [],
    ),
  );
  if (((site.x1 - site.x0) * (site.y1 - site.y0)) / (area.width * area.height) > MOST_PARTS) return [];
  const items = draw(look);
  const extent = extentOf(items, look);
  const [width, height] = [extent.x1 - extent.x0, extent.y1 - extent.y0];
  const columns = Math.ceil(width / (area.width - 2 * LAP_MM));
  const rows = Math.ceil(height / (area.height - 2 * LAP_MM));
  if (columns * rows > MOST_PARTS) return [];
  const out: Part[] = [];
  const back = { ...look, scale: 1 / scale, turnDeg: -whole.turnDeg };
  for (let row = rows - 1; row >= 0; row--) {
    for (let column = 0; column < columns; column++) {
      const wide = width / columns + 2 * LAP_MM;
      const tall = height / rows + 2 * LAP_MM;
      const place = {
        x: area.x + (area.width - wide) / 2,
        y: area.y + (area.height - tall) / 2,
        width: wide,
        height: tall,
      };
      const corner: Pt = [extent.x0 + (width / columns) * column - LAP_MM, extent.y0 + (height / rows) * row - LAP_MM];
      out.push({
        column,
        row,
        columns,
        rows,
        area: place,
        view: { ...place, scale, at: onPaper(back, corner), turnDeg: whole.turnDeg, items },
      });
    }
  }
  return out;
}

/** Match lines where a neighbouring part goes on, each with the neighbour's sheet. */
export function drawMatchLines(tongue: Tongue, key: Key): Item[] {
  const part = key.parts[key.index]!;
  const { area } = part;
  const items: Item[] = [];
  const sheetAt = (column: number, row: number): string => {
    const i = key.parts.findIndex((other) => other.column === column && other.row === row);
    return tongue.labels.view.match(tongue.words.write.mm(key.first + i));
  };
  const put = (from: Pt, to: Pt, label: string, turnDeg: number, foot: Pt): void => {
    items.push(
      line("frame", from, to, stroke("thick", "chain", "accent")),
      text(foot, label, { layer: "frame", align: "centre", tone: "accent", bold: true, turnDeg }),
    );
  };
  const [x0, x1, y0, y1] = [
    area.x + LAP_MM,
    area.x + area.width - LAP_MM,
    area.y + LAP_MM,
    area.y + area.height - LAP_MM,
  ];
  const [cx, cy] = [(x0 + x1) / 2, (y0 + y1) / 2];
  if (part.column > 0) put([x0, y0], [x0, y1], sheetAt(part.column - 1, part.row), 90, [area.x - 1, cy]);
  if (part.column + 1 < part.columns)
    put([x1, y0], [x1, y1], sheetAt(part.column + 1, part.row), 90, [area.x + area.width + 3, cy]);
  if (part.row > 0) put([x0, y0], [x1, y0], sheetAt(part.column, part.row - 1), 0, [cx, area.y - 3.5]);
  if (part.row + 1 < part.rows)
    put([x0, y1], [x1, y1], sheetAt(part.column, part.row + 1), 0, [cx, area.y + area.height + 1]);
  return items;
}

/** A small map of the parts with their sheets; this one hatched. Where cells are narrow the sheets stand beside them. */
export function drawKey(record: PlanRecord, tongue: Tongue, key: Key, x: number, top: number, width: number): Block {
  const head = headed(tongue.labels.view.key, x, top, width);
  const { columns, rows, area, view } = key.parts[0]!;
  const look = lookAt(1, view.turnDeg);
  const wide = (area.width - 2 * LAP_MM) * view.scale;
  const tall = (area.height - 2 * LAP_MM) * view.scale;
  const corners = key.parts.map((part) => onPaper(look, part.view.at));
  const { x0, y0 } = boundsOf(corners.map(([cx, cy]): Pt => [cx + LAP_MM * view.scale, cy + LAP_MM * view.scale]));
  const ratio = Math.min((width - 2 * BESIDE_MM) / (wide * columns), 42 / (tall * rows));
  const narrow = wide * ratio < BESIDE_MM;
  const left = x + (narrow ? BESIDE_MM : 1);
  const bottom = top - head.heightMm - tall * rows * ratio;
  const items = [...head.items];
  const cell = (part: Part): Pt => [left + part.column * wide * ratio, bottom + part.row * tall * ratio];
  key.parts.forEach((part, i) => {
    const [cx, cy] = cell(part);
    items.push(
      box(
        "text",
        cx,
        cy,
        wide * ratio,
        tall * ratio,
        THIN,
        i === key.index ? { hatchDeg: 45, spacingMm: 2, tone: "grey" } : null,
      ),
    );
  });
  const outline = ringPoints(record.survey.outline, 20).map((point): Pt => {
    const [px, py] = onPaper(look, point);
    return [left + (px - x0) * ratio, bottom + (py - y0) * ratio];
  });
  items.push(polygon("text", outline, stroke("medium")));
  key.parts.forEach((part, i) => {
    const [cx, cy] = cell(part);
    const middle = cy + (tall * ratio) / 2;
    const beside = part.column === 0 ? left - 1 : left + columns * wide * ratio + 1;
    if (narrow && part.column > 0 && part.column + 1 < columns) return;
    const at: Pt = narrow ? [beside, middle] : [cx + (wide * ratio) / 2, middle];
    const label = text(at, String(key.first + i), {
      bold: true,
      align: !narrow ? "centre" : part.column === 0 ? "right" : "left",
      stand: "middle",
    });
    if (label.kind === "text") items.push({ ...label, ground: true });
  });
  return { items, heightMm: top - bottom + 5 };
}

/** Room for a sheet's number. */
const BESIDE_MM = 8;
