import type { PlanRecord } from "../core/plan/record.ts";
import type { DrawingKind } from "../words/drawing.ts";
import type { Numbered } from "./drawing/findings.ts";
import type { Tongue } from "./drawing/look.ts";
import { ringPoints } from "./drawing/plane.ts";
import { type Area, type Draw, type Fitted, fitAt, fitView } from "./fit.ts";
import {
  BANNER_MM,
  BAR_MM,
  BLOCK_MM,
  drawAxes,
  drawBanner,
  drawBar,
  drawFrame,
  drawTitleBlock,
  frameArea,
  SIZES,
  type Size,
} from "./frame.ts";
import { box, line, MEDIUM, paragraph, text } from "./ink.ts";
import { findingsBlock, legendBlock, type Sign, statesBlock } from "./margin.ts";
import { drawKey, drawMatchLines, type Key, partsOf } from "./parts.ts";
import type { Item, Paper, Pt, Sheet, View } from "./sheet.ts";

/** One drawing of a paper: what is drawn, and what its view is called where a sheet has several. */
export interface Picture {
  name: string | null;
  draw: Draw;
}
export interface Composition {
  kind: DrawingKind;
  /** File-safe. */
  name: string;
  pictures: Picture[];
  /** Columns of signs. */
  signs: (scale: number) => Sign[][];
  findings: { shown: Numbered[]; more: number };
  /** Lines above the findings: the drawing's own figures. */
  facts: string[];
  /** Instead of a drawing's figures: said large below it (no levels taken, positions left off). */
  remark: string | null;
  /** Height on site, mm, of what must be told apart: where the whole drawing shows it under 4 mm, parts at a larger scale follow. Null: none. */
  detailMm: number | null;
  proof: string | null;
}

/** Width of the column beside a drawing, mm, and the least a drawing keeps free around it. */
const COLUMN_MM = { A4: 88, A3: 112, A2: 130, A1: 150 } as const;
const HEAD_MM = 7;
const PAD_MM = 3;

/**
 * Sheets for a drawing: A3 by choice, A4 where that loses no scale, larger only where the scale would be coarser than
 * 1:100. All pictures on one sheet where that keeps the scale, else a sheet each. Column at the right: findings,
 * signs, what the drawing rests on, title block.
 */
export function compose(record: PlanRecord, tongue: Tongue, plan: Composition): Paper {
  const site = ringPoints(record.survey.outline, 20);
  const released = record.site.drillingReleased;
  const laid = chooseSheets(record, tongue, plan, site, released);
  const whole = laid.pages[0]!.fitted[0]!.fitted;
  const parts =
    plan.detailMm === null
      ? []
      : partsOf(plan.pictures[0]!.draw, whole.view, plan.detailMm, drawingArea("A3", released));
  const of = laid.pages.length + parts.length;
  const sheets = laid.pages.map((page, i) =>
    sheetOf(record, tongue, plan, laid.size, page.fitted.map(plain), i, of, null),
  );
  parts.forEach((part, i) => {
    sheets.push(
      sheetOf(
        record,
        tongue,
        plan,
        "A3",
        [{ name: null, area: part.area, view: part.view }],
        laid.pages.length + i,
        of,
        { parts, index: i, first: laid.pages.length + 1 },
      ),
    );
  });
  const title = `${tongue.labels.type[plan.kind]}: ${record.job.title}`;
  const notes = [title, `${record.jobHash.slice(0, 10)}-${tongue.labels.letter[plan.kind]}`];
  if (!released) notes.push(`${tongue.labels.banner.notForDrilling}. ${tongue.labels.banner.why}`);
  return { name: plan.name, title, sheets, dxf: true, notes };
}

/** A view on a sheet, with its name over it. */
interface Shown {
  name: string | null;
  area: Area;
  view: View;
}
function plain({ picture, area, fitted }: Page["fitted"][number]): Shown {
  return { name: picture.name, area, view: fitted.view };
}

interface Page {
  fitted: { picture: Picture; area: Area; fitted: Fitted }[];
}

function chooseSheets(
  record: PlanRecord,
  tongue: Tongue,
  plan: Composition,
  site: readonly Pt[],
  released: boolean,
): { size: Size; pages: Page[] } {
  const tries = (["A4", "A3"] as const).map((size) => ({ size, pages: pagesOn(size, plan, site, released) }));
  const [a4, a3] = [tries[0]!, tries[1]!];
  const small = coarsest(a4.pages);
  const enough = small <= coarsest(a3.pages) && a4.pages.length <= a3.pages.length && small <= 50;
  if (enough && columnFits(record, tongue, plan, small, "A4")) return a4;
  if (coarsest(a3.pages) <= 100) return a3;
  for (const size of ["A2", "A1"] as const) {
    const pages = pagesOn(size, plan, site, released);
    if (coarsest(pages) <= 100 || size === "A1") return coarsest(pages) < coarsest(a3.pages) ? { size, pages } : a3;
  }
  return a3;
}

function coarsest(pages: readonly Page[]): number {
  return Math.max(...pages.flatMap((page) => page.fitted.map((one) => one.fitted.scale)));
}

function pagesOn(size: Size, plan: Composition, site: readonly Pt[], released: boolean): Page[] {
  const area = drawingArea(size, released);
  const single = plan.pictures.map((picture): Page => {
    const inner = below(area, picture.name === null ? 0 : HEAD_MM);
    return { fitted: [{ picture, area: inner, fitted: fitView(picture.draw, site, inner) }] };
  });
  if (plan.pictures.length < 2) return single;
  const scale = coarsest(single);
  for (const split of [splitDown, splitAcross]) {
    const parts = split(area, plan.pictures.length);
    const turn = single[0]!.fitted[0]!.fitted.view.turnDeg;
    const fitted = plan.pictures.map((picture, i) => {
      const inner = below(parts[i]!, HEAD_MM);
      return { picture, area: inner, fitted: fitAt(picture.draw, site, inner, scale, turn) };
    });
    if (fitted.every((one) => one.fitted !== null)) return [{ fitted: fitted as Page["fitted"] }];
  }
  return single;
}

function splitDown(area: Area, parts: number): Area[] {
  const height = area.height / parts;
  return Array.from({ length: parts }, (_, i) => ({ ...area, y: area.y + (parts - 1 - i) * height, height }));
}
function splitAcross(area: Area, parts: number): Area[] {
  const width = area.width / parts;
  return Array.from({ length: parts }, (_, i) => ({ ...area, x: area.x + i * width, width }));
}
function below(area: Area, head: number): Area {
  return { ...area, height: area.height - head };
}

/** Left of the column, above the check bar, under the banner. */
function drawingArea(size: Size, released: boolean): Area {
  const frame = frameArea(size);
  const top = released ? 0 : BANNER_MM + 1;
  return {
    x: frame.x + PAD_MM,
    y: frame.y + BAR_MM + 4,
    width: frame.width - COLUMN_MM[size] - 2 * PAD_MM,
    height: frame.height - BAR_MM - 4 - top - PAD_MM,
  };
}

function sheetOf(
  record: PlanRecord,
  tongue: Tongue,
  plan: Composition,
  size: Size,
  shown: Shown[],
  index: number,
  of: number,
  key: Key | null,
): Sheet {
  const { labels } = tongue;
  const [widthMm, heightMm] = SIZES[size];
  const frame = frameArea(size);
  const released = record.site.drillingReleased;
  const column = { x: frame.x + frame.width - COLUMN_MM[size], width: COLUMN_MM[size] };
  const { scale, turnDeg } = shown[0]!.view;
  const items: Item[] = [...drawFrame(size)];
  items.push(line("frame", [column.x, frame.y], [column.x, frame.y + frame.height], MEDIUM));
  const block = {
    kind: plan.kind,
    title: record.job.title,
    number: record.jobHash.slice(0, 10),
    sheet: index + 1,
    sheets: of,
    scale: `1:${scale}`,
    size,
  };
  items.push(...drawTitleBlock(block, labels, column.x, frame.y, column.width));
  if (!released) items.push(...drawBanner(labels, { ...frame, width: column.x - frame.x }));
  const inner = {
    x: column.x + 3,
    top: frame.y + frame.height - 3,
    width: column.width - 6,
    bottom: frame.y + BLOCK_MM + 2,
  };
  if (key) {
    const map = drawKey(record, tongue, key, inner.x, inner.top, inner.width);
    items.push(...map.items, ...drawMatchLines(tongue, key));
    inner.top -= map.heightMm;
  }
  items.push(...drawColumn(record, tongue, plan, scale, inner));
  items.push(...drawBar(labels, frame.x + 4, frame.y + 1, column.x - frame.x - 44));
  items.push(...drawAxes(labels, [column.x - 24, frame.y + 7], turnDeg, record.setout.frame.angleDeg));
  for (const { name, area } of shown) {
    if (name !== null) items.push(text([area.x + 1, area.y + area.height + 1.5], name, { heightMm: 3.5, bold: true }));
  }
  if (plan.remark !== null && !key) items.push(...remark(plan.remark, drawingArea(size, released)));
  return {
    name: `${plan.name}-${index + 1}`,
    title: `${labels.type[plan.kind]}: ${record.job.title}`,
    widthMm,
    heightMm,
    views: shown.map((one) => one.view),
    items,
  };
}

/** True where all that must stand in the column does, with room for a finding or two. */
function columnFits(record: PlanRecord, tongue: Tongue, plan: Composition, scale: number, size: Size): boolean {
  const width = COLUMN_MM[size] - 6;
  const blocks = [
    statesBlock(record, tongue, plan.proof, 0, 0, width),
    legendBlock(plan.signs(scale), tongue, 0, 0, width),
  ];
  const facts = plan.facts.reduce(
    (sum, fact) => sum + paragraph([0, 0], fact, width, { heightMm: 3, bold: true }, 2).heightMm + 2,
    0,
  );
  const findings = plan.findings.shown.length === 0 ? 12 : 40;
  return (
    blocks.reduce((sum, block) => sum + block.heightMm + 3, facts + findings) <= frameArea(size).height - BLOCK_MM - 7
  );
}

/** From the top: facts, findings; from the bottom, above the title block: what the drawing rests on, signs. Findings get what is left. */
function drawColumn(
  record: PlanRecord,
  tongue: Tongue,
  plan: Composition,
  scale: number,
  column: { x: number; top: number; width: number; bottom: number },
): Item[] {
  const { x, width } = column;
  const items: Item[] = [];
  const place = (make: (top: number) => { items: Item[]; heightMm: number }): void => {
    const height = make(0).heightMm;
    items.push(...make(bottom + height).items);
    bottom += height + 3;
  };
  let bottom = column.bottom;
  place((top) => statesBlock(record, tongue, plan.proof, x, top, width));
  place((top) => legendBlock(plan.signs(scale), tongue, x, top, width));
  let top = column.top;
  for (const fact of plan.facts) {
    const part = paragraph([x, top], fact, width, { heightMm: 3, bold: true }, 2);
    items.push(...part.items);
    top -= part.heightMm + 2;
  }
  if (plan.facts.length > 0) top -= 2;
  items.push(...findingsBlock(plan.findings, tongue, x, top, width, bottom).items);
  return items;
}

function remark(words: string, area: Area): Item[] {
  const wide = Math.min(area.width - 10, 150);
  const part = paragraph(
    [area.x + area.width / 2, area.y + 12],
    words,
    wide,
    { heightMm: 3.5, bold: true, align: "centre" },
    2,
  );
  return [
    box(
      "text",
      area.x + (area.width - wide) / 2 - 2,
      area.y + 12 - part.heightMm - 2,
      wide + 4,
      part.heightMm + 4,
      MEDIUM,
      { colour: "#ffffff" },
    ),
    ...part.items,
  ];
}
