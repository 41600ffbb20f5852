import type { PlanRecord } from "../core/plan/record.ts";
import type { Words } from "../words/words.ts";
import { cardStrip } from "./cardStrip.ts";
import { ripOf } from "./cutlist.ts";
import { box, line, MEDIUM, paragraph, stroke, THICK, text, textIn } from "./ink.ts";
import { shortHash } from "./page.ts";
import type { Cut } from "./pieces.ts";
import { type RowCard, rowCardsOf } from "./rowCards.ts";
import { rowNumber } from "./rowNumber.ts";
import type { Item, Paper, Sheet } from "./sheet.ts";
import { type Column, table } from "./table.ts";
import { textWidthMm } from "./text.ts";

/** A5 across; every letter at least 3.5 mm high, to be read kneeling. */
const WIDE = 210;
const TALL = 148;
const MARGIN = 8;
const INNER = WIDE - 2 * MARGIN;
export const CARD_TEXT_MM = 3.5;
const SMALL = { heightMm: CARD_TEXT_MM };

/** A card for each row, several for a long one, in laying order; none for `finished` rows. */
export function cardPaper(record: PlanRecord, words: Words, finished: ReadonlySet<number> = new Set()): Paper {
  const cards = rowCardsOf(record).filter((card) => !finished.has(card.row));
  const sheets = cards.flatMap((card) => cardSheets(card, record, words));
  return { name: "cards", title: words.papers.cards.title, sheets, dxf: false };
}

/** One sheet; where the list of pieces does not fit under the rest, it goes on on another. */
function cardSheets(card: RowCard, record: PlanRecord, words: Words): Sheet[] {
  const w = words.papers.cards;
  const title = `${w.row(rowNumber(card.row))} – ${w.card(String(card.number), String(card.of))}`;
  const sheet = (items: Item[], rest: number): Sheet => {
    const name = `card-${rowNumber(card.row)}-${card.number}${rest === 0 ? "" : `-${rest + 1}`}`;
    return {
      name,
      title,
      widthMm: WIDE,
      heightMm: TALL,
      views: [],
      items: [...headOf(card, record, words), ...items, ...boxesOf(words), ...footOf(words)],
    };
  };
  const body = bodyOf(card, record, words);
  const sheets: Sheet[] = [];
  let rows = card.part === "row" ? card.pieces.map((cut, i) => pieceRow(cut, i, record, words)) : [];
  let { items, y } = body;
  for (;;) {
    const list =
      rows.length === 0 ? null : table(MARGIN, y, columnsOf(words), rows, FOOT_MM, { heightMm: CARD_TEXT_MM });
    sheets.push(sheet(list && list.rows > 0 ? [...items, ...list.items] : items, sheets.length));
    if (!list || (list.rows === 0 && sheets.length > 1)) return sheets;
    rows = rows.slice(list.rows);
    if (rows.length === 0) return sheets;
    items = [];
    y = TALL - MARGIN - HEAD_MM;
  }
}

/** Everything between the head and the list of pieces, and where that may begin. */
function bodyOf(card: RowCard, record: PlanRecord, words: Words): { items: Item[]; y: number } {
  const w = words.papers.cards;
  const mm = (value: number): string => words.write.mm(value);
  const items: Item[] = [];
  let y = TALL - MARGIN - HEAD_MM;
  const say = (said: string, bold: boolean, inset = 0): void => {
    const part = paragraph([MARGIN + inset, y], said, INNER - 2 * inset, { ...SMALL, bold });
    items.push(...part.items);
    y -= part.heightMm + 2.2;
  };
  const [near, far] = [mm(card.nearMm), mm(card.farMm)];
  const top = y;
  if (card.check) y -= 1.5;
  say(card.check ? w.check(near, far) : w.line(near, far), true, card.check ? 2 : 0);
  if (card.check) {
    items.push(box("frame", MARGIN, y + 0.7, INNER, top - y - 0.7, THICK));
    y -= 1;
  }
  say(`${w.stance} ${w.zero(card.pieces[0]!.id, zeroWords(card, words))}`, false);
  if (card.part === "far") say(w.lastClipsHow, true);
  const strip = cardStrip(card, record, words, { x: MARGIN, top: y - 0.5, width: INNER });
  items.push(...strip.items);
  y -= strip.heightMm + 1.5;
  for (const said of fixingWords(card, record, words)) say(said, true);
  return { items, y };
}

const HEAD_MM = 14.5;
/** Top of the boxes at the foot, with a little air. */
const FOOT_MM = MARGIN + 6 + 11.5 + 0.5;

function headOf(card: RowCard, record: PlanRecord, words: Words): Item[] {
  const w = words.papers.cards;
  const top = TALL - MARGIN;
  const name = w.row(rowNumber(card.row));
  const place = card.part === "far" ? w.lastClips : card.first ? w.first : card.last ? w.last : "";
  const said = [place, card.of > 1 ? w.card(String(card.number), String(card.of)) : ""]
    .filter((part) => part !== "")
    .join(", ");
  const wide = textWidthMm(name, 8.5, true);
  const right = MARGIN + INNER;
  const room = INNER - wide - 4;
  return [
    text([MARGIN, top - 9.5], name, { heightMm: 8.5, bold: true }),
    textIn([MARGIN + wide + 4, top - 9.5], said, room - textWidthMm(shortHash(record), CARD_TEXT_MM) - 3, {
      heightMm: 4.5,
    }),
    text([right, top - 9.5], shortHash(record), { ...SMALL, align: "right" }),
    textIn([right, top - 3.7], record.job.title, room, { ...SMALL, align: "right" }),
    line("frame", [MARGIN, top - 12], [right, top - 12], THICK),
  ];
}

/** Where the card's zero lies from the row before, which is laid already. */
export function zeroWords(card: RowCard, words: Words): Parameters<Words["papers"]["cards"]["zero"]>[1] {
  if (card.zeroFrom === null) return null;
  const { row, mm } = card.zeroFrom;
  const side = mm === 0 ? "flush" : mm > 0 ? "right" : "left";
  return { row: rowNumber(row), mm: words.write.mm(Math.abs(mm)), side };
}

/** Depth stop, end clips, screws; or, where nothing may be drilled, that alone. */
export function fixingWords(card: RowCard, record: PlanRecord, words: Words): string[] {
  const w = words.papers.cards;
  const mm = (value: number): string => words.write.mm(value);
  const out: string[] = [];
  if (record.site.drillingReleased) {
    const list = card.ends.map((end) => mm(end.alongMm)).join(" / ");
    const ends = card.part === "far" ? "" : list === "" ? w.noEndClips : w.endClips(list);
    const first = card.part === "row" && card.near.length > 0 ? w.nearFirst : "";
    const said = [depthWords(card, words), tiled(record) ? w.tiles : "", first, ends];
    out.push(said.filter((part) => part !== "").join(" "));
  }
  if (card.screwsMm.length > 0) out.push(w.screws(card.screwsMm.map(mm).join(" · ")));
  return out;
}

/** One depth, or the stretches of clips that share one. */
function depthWords(card: RowCard, words: Words): string {
  const w = words.papers.cards;
  const mm = (value: number): string => words.write.mm(value);
  const clips = [...card.near, ...card.far, ...card.ends].sort((a, b) => a.alongMm - b.alongMm);
  if (clips.length === 0) return "";
  const runs: { from: number; to: number; depth: number }[] = [];
  for (const clip of clips) {
    const run = runs[runs.length - 1];
    if (run && run.depth === clip.depthMm) run.to = clip.alongMm;
    else runs.push({ from: clip.alongMm, to: clip.alongMm, depth: clip.depthMm });
  }
  if (runs.length === 1) return w.depth(mm(runs[0]!.depth));
  return w.depths(runs.map((run) => w.depthPart(mm(run.from), mm(run.to), mm(run.depth))).join("; "));
}

function tiled(record: PlanRecord): boolean {
  return record.job.base.kind === "tiles" || record.job.base.kind === "paving";
}

function columnsOf(words: Words): Column[] {
  const w = words.papers.cards;
  return [
    { head: w.number, widthMm: 12, align: "right" },
    { head: w.piece, widthMm: 24, bold: true },
    { head: w.length, widthMm: 38, align: "right", bold: true },
    { head: w.cutEnd, widthMm: 50 },
    { head: w.groove, widthMm: 20 },
    { head: w.from, widthMm: 24 },
    { head: w.when, widthMm: 26 },
  ];
}

function pieceRow(cut: Cut, i: number, record: PlanRecord, words: Words): string[] {
  const w = words.papers.cards;
  const mm = (value: number): string => words.write.number(value, value % 1 === 0 ? 0 : 1);
  const rip = cut.ripMm === null ? "" : ` × ${ripOf(cut, mm)}`;
  const slant =
    cut.shape === "slanting" ? ` ${mm(cut.nearMm)}/${mm(cut.farMm)}` : cut.shape === "shaped" ? `, ${w.shaped}` : "";
  const [near, far] = record.bond.pieces[cut.piece]!.edges;
  const groove = near === "groove" ? (far === "groove" ? "both" : "near") : far === "groove" ? "far" : "none";
  return [
    String(i + 1),
    cut.id,
    `${mm(cut.stopMm)}${rip}`,
    `${w.ends[cut.cutEnds]}${slant}`,
    w.grooves[groove],
    cut.boardId,
    cut.whole ? w.wholeBoard : w.whenWords[cut.when],
  ];
}

/** Boxes to write what was measured, along the foot of the card. */
function boxesOf(words: Words): Item[] {
  const w = words.papers.cards;
  const heads = [w.boxLineLeft, w.boxLineRight, w.boxGapLeft, w.boxGapRight, w.boxBy];
  const width = INNER / heads.length;
  const bottom = MARGIN + 6;
  const height = 11.5;
  return heads.flatMap((head, i) => [
    box("frame", MARGIN + i * width, bottom, width, height, MEDIUM),
    text([MARGIN + i * width + 1.5, bottom + height - 4.8], head, SMALL),
  ]);
}

function footOf(words: Words): Item[] {
  return [
    line("frame", [MARGIN, MARGIN + 5.2], [MARGIN + INNER, MARGIN + 5.2], stroke("thin")),
    textIn([MARGIN, MARGIN], words.papers.cards.foot, INNER, SMALL),
  ];
}
