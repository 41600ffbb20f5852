import type { PlanRecord } from "../core/plan/record.ts";
import type { Numbered } from "./drawing/findings.ts";
import { lookAt, onPaper, type Tongue } from "./drawing/look.ts";
import { ringPoints } from "./drawing/plane.ts";
import type { Area } from "./fit.ts";
import {
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
import { COLUMN_MM, type Composition, chooseSheets, drawingArea, type Page } from "./layout.ts";
import { findingsBlock, legendBlock, statesBlock } from "./margin.ts";
import { drawKey, drawMatchLines, type Key, partsOf } from "./parts.ts";
import type { Item, Paper, Pt, Sheet, View } from "./sheet.ts";

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
      : partsOf(plan.pictures[0]!.draw, whole.view, plan.detailMm, drawingArea("A3", released, false));
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
  const notes = [title, `${record.jobHash.slice(0, 8)}-${tongue.labels.letter[plan.kind]}`];
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
    number: record.jobHash.slice(0, 8),
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
  const findings = key ? findingsIn(plan.findings.shown, shown[0]!.view) : plan.findings;
  items.push(...drawColumn(record, tongue, { ...plan, findings }, scale, inner));
  items.push(...drawBar(labels, frame.x + 4, frame.y + 1, 105));
  const note = { x: frame.x + 110, width: column.x - 50 - frame.x - 110 };
  items.push(...paragraph([note.x, frame.y + 12], labels.seen, note.width, { layer: "frame" }, 3).items);
  items.push(...drawAxes(labels, [column.x - 24, frame.y + 7], turnDeg, record.setout.frame.angleDeg));
  for (const { name, area } of shown) {
    if (name !== null) items.push(text([area.x + 1, area.y + area.height + 1.5], name, { heightMm: 3.5, bold: true }));
  }
  if (plan.remark !== null && !key) items.push(...remark(plan.remark, drawingArea(size, released, false)));
  return {
    name: `${plan.name}-${index + 1}`,
    title: `${labels.type[plan.kind]}: ${record.job.title}`,
    widthMm,
    heightMm,
    views: shown.map((one) => one.view),
    items,
  };
}

/** The findings that lie in a part. */
function findingsIn(shown: readonly Numbered[], view: View): { shown: Numbered[]; more: number } {
  const look = lookAt(view.scale, view.turnDeg);
  const [ox, oy] = onPaper(look, view.at);
  const within = (place: Pt): boolean => {
    const [x, y] = onPaper(look, place);
    return x > ox && y > oy && x < ox + view.width && y < oy + view.height;
  };
  return { shown: shown.filter(({ places }) => places.some(within)), more: 0 };
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
    [area.x + area.width / 2, area.y + 14],
    words,
    wide,
    { heightMm: 3.5, bold: true, align: "centre" },
    2,
  );
  return [
    box(
      "text",
      area.x + (area.width - wide) / 2 - 2,
      area.y + 14 - part.heightMm - 2,
      wide + 4,
      part.heightMm + 4,
      MEDIUM,
      { colour: "#ffffff" },
    ),
    ...part.items,
  ];
}
