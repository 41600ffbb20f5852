import type { PlanRecord } from "../core/plan/record.ts";
import type { TakeoffItem } from "../core/stages/takeoff/record.ts";
import { minorDigits } from "../words/figures.ts";
import type { Words } from "../words/words.ts";
import { type Grid, numberColumn, textColumn } from "./grid.ts";
import { type Block, listSheets } from "./page.ts";
import type { Paper } from "./sheet.ts";

/** The order list as a table of data: CSV and XLSX. Money in whole units of the currency with its decimals. */
export function orderGrid(record: PlanRecord, words: Words): Grid {
  const w = words.papers.order;
  const { currency } = record.job;
  const digits = minorDigits(currency);
  const unit = [1, 10, 100, 1000][digits]!;
  const yard = record.takeoff.items.some((item) => item.owned);
  return {
    name: "order",
    title: w.title,
    columns: [
      textColumn(w.item, 16),
      textColumn(w.what, 40),
      textColumn(w.unit, 8),
      numberColumn(w.need),
      numberColumn(w.spare),
      numberColumn(w.pack),
      ...(yard ? [numberColumn(w.owned)] : []),
      numberColumn(w.buy),
      numberColumn(w.price, digits, 14),
      numberColumn(w.sum, digits, 14),
      textColumn(w.currency, 10),
    ],
    rows: record.takeoff.items.map((item) => [
      item.item,
      itemWords(item, record, words),
      words.papers.unit[item.unit],
      item.need,
      item.spare,
      item.pack,
      ...(yard ? [item.owned ?? 0] : []),
      item.buy,
      item.price === null ? null : item.price / unit,
      item.price === null ? null : Math.round(item.buy * item.price) / unit,
      currency,
    ]),
  };
}

/** The order list on A4, with what the spares and the total are made of. */
export function orderPaper(record: PlanRecord, words: Words): Paper {
  const w = words.papers.order;
  const { write } = words;
  const { job, takeoff } = record;
  const yard = takeoff.items.some((item) => item.owned);
  const rows = takeoff.items.map((item) => [
    itemWords(item, record, words),
    write.number(item.need, 0),
    item.spare === 0 ? "–" : write.number(item.spare, 0),
    write.number(item.pack, 0),
    ...(yard ? [item.owned ? write.number(item.owned, 0) : "–"] : []),
    write.number(item.buy, 0),
    words.papers.unit[item.unit],
    item.price === null ? "–" : plainMoney(item.price, record, words),
    item.price === null ? "–" : plainMoney(item.buy * item.price, record, words),
  ]);
  const columns = [
    { head: w.what, widthMm: yard ? 50 : 66, lines: 3 },
    { head: w.need, widthMm: 17, align: "right" as const },
    { head: w.spare, widthMm: 14, align: "right" as const },
    { head: w.pack, widthMm: 13, align: "right" as const },
    ...(yard ? [{ head: w.owned, widthMm: 16, align: "right" as const, lines: 2 }] : []),
    { head: w.buy, widthMm: 16, align: "right" as const, bold: true },
    { head: w.unit, widthMm: 12 },
    { head: w.price, widthMm: 18, align: "right" as const, lines: 2 },
    { head: `${w.sum} ${job.currency}`, widthMm: 24, align: "right" as const },
  ];
  const share = (value: number): string => write.percent(value * 100);
  const { spares } = job;
  const unpriced = takeoff.items.filter((item) => item.price === null).map((item) => itemWords(item, record, words));
  const blocks: Block[] = [
    { kind: "table", columns, rows },
    { kind: "text", text: w.total(write.money(takeoff.totalMinor, job.currency)), heightMm: 3.5, bold: true },
    ...(unpriced.length > 0 ? [{ kind: "text" as const, text: w.unpriced(unpriced.join(", ")), bold: true }] : []),
    ...(yard ? [{ kind: "text" as const, text: w.ownedNote }] : []),
    { kind: "text", text: w.rounding },
    {
      kind: "text",
      text: w.spares(
        share(spares.boards),
        share(spares.boardsSlanting),
        write.number(spares.boardsAtLeast, 0),
        share(spares.clips),
        share(spares.fixings),
      ),
    },
    { kind: "text", text: w.noTax },
  ];
  return { name: "order", title: w.title, sheets: listSheets(record, words, "order", w.title, blocks), dxf: false };
}

/** An item of the take-off in the words of the paper's language. */
export function itemWords(item: TakeoffItem, record: PlanRecord, words: Words): string {
  const material =
    item.unit === "bag" ? record.job.base.preparation.materials[Number(item.item.slice(5)) - 1] : undefined;
  const bag = material?.bag ?? null;
  const sizes = {
    bag: bag === null ? null : words.write.number(bag, bag % 1 === 0 ? 0 : 1),
    diameter: words.write.number(record.job.clips.fixing.diameter, record.job.clips.fixing.diameter % 1 === 0 ? 0 : 1),
    length: words.write.mm(Number(item.item.slice(item.item.lastIndexOf("-") + 1)) || 0),
  };
  return words.papers.item(item.item, item.name, sizes);
}

/** Money without its currency, for a column that names it in its head. */
function plainMoney(minor: number, record: PlanRecord, words: Words): string {
  const digits = minorDigits(record.job.currency);
  return words.write.number(Math.round(minor) / [1, 10, 100, 1000][digits]!, digits);
}
