import type { PlanRecord } from "../core/plan/record.ts";
import type { Words } from "../words/words.ts";
import { line, MEDIUM, paragraph, THICK, THIN, text, textIn } from "./ink.ts";
import type { Item, Sheet } from "./sheet.ts";
import { type Column, type TableLook, table } from "./table.ts";
import { textWidthMm } from "./text.ts";

/** What a list is made of, from top to bottom. */
export type Block =
  | { kind: "heading"; text: string }
  | { kind: "text"; text: string; heightMm?: number; bold?: boolean; indentMm?: number }
  | { kind: "table"; columns: readonly Column[]; rows: readonly (readonly string[])[]; look?: TableLook }
  /** A word or two on the left, what is said of it on the right. */
  | { kind: "pairs"; headMm: number; rows: readonly (readonly [string, string])[]; maxLines: number; across?: 1 | 2 };

const A4 = { width: 210, height: 297 };
/** Left margin wide enough to be filed (ISO 5457: 20 mm), others 10 mm. */
const MARGIN = { left: 20, right: 10, top: 10, bottom: 10 };
export const LIST_WIDTH_MM = A4.width - MARGIN.left - MARGIN.right;
const TEXT_MM = 2.5;

/**
 * Lists on A4 upright sheets, as many as they need: title and job at the head, at the foot what is measured, assumed and
 * checked, and page x of y. Tables go on over sheets with their head repeated.
 */
export function listSheets(
  record: PlanRecord,
  words: Words,
  name: string,
  title: string,
  blocks: readonly Block[],
): Sheet[] {
  const basis = basisOf(record, words);
  const foot = paragraph([0, 0], basis, BASIS_WIDTH_MM, { heightMm: 2.5 });
  const bottom = MARGIN.bottom + foot.heightMm + 4;
  const pages: Item[][] = [];
  let items: Item[] = [];
  let y = 0;
  const turn = (): void => {
    items = [];
    pages.push(items);
    y = A4.height - MARGIN.top - HEAD_MM;
  };
  turn();
  for (const block of blocks) {
    if (block.kind === "pairs") {
      const across = block.across ?? 1;
      const wide = LIST_WIDTH_MM / across;
      for (let i = 0; i < block.rows.length; i += across) {
        const line = block.rows.slice(i, i + across);
        const said = (top: number) =>
          line.map(([, words], k) => {
            const x = MARGIN.left + k * wide + block.headMm;
            return paragraph([x, top], words, wide - block.headMm - 1, { heightMm: TEXT_MM }, block.maxLines);
          });
        const tall = Math.max(...said(y).map((part) => part.heightMm));
        if (y - tall < bottom) turn();
        line.forEach(([head], k) => {
          const at = [MARGIN.left + k * wide, y - TEXT_MM] as const;
          items.push(textIn(at, head, block.headMm - 2, { heightMm: TEXT_MM, bold: true }));
        });
        items.push(...said(y).flatMap((part) => part.items));
        y -= tall + 1.8;
      }
      y -= 0.8;
    } else if (block.kind === "table") {
      let rows = block.rows;
      for (;;) {
        const part = table(MARGIN.left, y, block.columns, rows, bottom, { heightMm: TEXT_MM, ...block.look });
        const fresh = items.length === 0;
        if (part.rows > 0 || rows.length === 0) {
          items.push(...part.items);
          y -= part.heightMm;
        }
        // A row too tall for a whole sheet cannot come from cells of bounded lines; skipping it keeps the loop finite.
        rows = rows.slice(part.rows === 0 && fresh ? 1 : part.rows);
        if (rows.length === 0) break;
        turn();
      }
      y -= 3;
    } else {
      const heading = block.kind === "heading";
      const look = heading
        ? { heightMm: 3.5, bold: true }
        : { heightMm: block.heightMm ?? TEXT_MM, bold: block.bold ?? false };
      const indent = heading ? 0 : (block.indentMm ?? 0);
      const before = heading && items.length > 0 ? 3 : 0;
      const probe = paragraph([0, 0], block.text, LIST_WIDTH_MM - indent, look);
      // A heading stays with what follows it.
      if (y - before - probe.heightMm - (heading ? 14 : 0) < bottom) turn();
      else y -= before;
      items.push(...paragraph([MARGIN.left + indent, y], block.text, LIST_WIDTH_MM - indent, look).items);
      y -= probe.heightMm + (heading ? 2.3 : 1.8);
    }
  }
  return pages.map((content, i) => ({
    name: `${name}-${i + 1}`,
    title,
    widthMm: A4.width,
    heightMm: A4.height,
    views: [],
    items: [...head(record, words, title), ...content, ...footer(words, basis, bottom, i + 1, pages.length)],
  }));
}

const HEAD_MM = 17;
/** The foot's sentences leave room for the page's number. */
const BASIS_WIDTH_MM = LIST_WIDTH_MM - 25;

/** What is measured, assumed and checked, in one sentence each. */
export function basisOf(record: PlanRecord, words: Words): string {
  return words.papers.basis({
    levels: record.survey.levels.length,
    straightedges: record.survey.straightedges.length,
    ties: record.survey.adjustment?.ties.length ?? 0,
    defaults: record.defaultsUsed.length,
  });
}

/** The first letters of the job's hash: enough to see that two papers belong to the same job file. */
export function shortHash(record: PlanRecord): string {
  return record.jobHash.slice(0, 10);
}

function head(record: PlanRecord, words: Words, title: string): Item[] {
  const top = A4.height - MARGIN.top;
  const right = A4.width - MARGIN.right;
  const reference = `${words.papers.plan} ${shortHash(record)}`;
  const room = LIST_WIDTH_MM - textWidthMm(reference, 2.5) - 5;
  return [
    text([MARGIN.left, top - 5], title, { heightMm: 5, bold: true }),
    textIn([MARGIN.left, top - 11], record.job.title, room, { heightMm: 3 }),
    text([right, top - 11], reference, { heightMm: 2.5, align: "right" }),
    line("frame", [MARGIN.left, top - 13.5], [right, top - 13.5], THICK),
  ];
}

function footer(words: Words, basis: string, bottom: number, number: number, of: number): Item[] {
  const right = A4.width - MARGIN.right;
  const rule = bottom - 2;
  return [
    line("frame", [MARGIN.left, rule], [right, rule], number === of ? MEDIUM : THIN),
    ...paragraph([MARGIN.left, rule - 1.5], basis, BASIS_WIDTH_MM, { heightMm: 2.5 }).items,
    text([right, MARGIN.bottom], words.papers.page(number, of), { heightMm: 2.5, align: "right" }),
  ];
}
