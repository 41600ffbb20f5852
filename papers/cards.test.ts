import { describe, expect, it } from "vitest";
import type { PlanRecord } from "../core/plan/record.ts";
import { takeOff } from "../core/stages/takeoff/takeoff.ts";
import { sampleJob, samplePlan } from "../fixtures/samplePlan.ts";
import { en } from "../words/en/index.ts";
import { spread } from "./cardStrip.ts";
import { cardPaper } from "./cards.ts";
import { rowCardsOf } from "./rowCards.ts";
import type { Item, Sheet } from "./sheet.ts";
import { textWidthMm } from "./text.ts";

function plan(rows = 13, last = false): PlanRecord {
  const record = samplePlan(sampleJob(), rows, last);
  const { job, survey, preparation, setout, bond, fixing, cutting } = record;
  return { ...record, takeoff: takeOff(job, survey, preparation, setout, bond, fixing, cutting) };
}
const texts = (sheet: Sheet) => sheet.items.filter((item): item is Item & { kind: "text" } => item.kind === "text");
/** The figures printed on a sheet, read back as numbers. */
const printed = (sheet: Sheet): number[] =>
  texts(sheet)
    .filter((t) => /^[\d\u2009\u2212]+$/.test(t.text))
    .map((t) => Number(t.text.replaceAll("\u2009", "").replace("\u2212", "-")));

describe("row cards", () => {
  for (const last of [false, true]) {
    it(`hold every piece, screw and clip once, with figures taken from the record (${last ? "last clips" : "ripped last row"})`, () => {
      const record = plan(13, last);
      const cards = rowCardsOf(record);
      const rows = cards.filter((card) => card.part === "row");
      expect(rows.flatMap((card) => card.pieces.map((cut) => cut.piece))).toEqual(record.bond.pieces.map((_, i) => i));
      const clips = cards.flatMap((card) => [...card.near, ...card.far, ...card.ends]);
      expect(clips.map((c) => c.clip).sort((a, b) => a - b)).toEqual(record.fixing.clips.map((_, i) => i));
      expect(rows.reduce((n, card) => n + card.screwsMm.length, 0)).toBe(record.fixing.screws.length);
      expect(cards.filter((card) => card.part === "far").length).toBe(last ? 1 : 0);
      for (const card of cards) {
        const zero = record.bond.pieces[card.pieces[0]!.piece]!.u0Um;
        for (const c of [...card.near, ...card.far, ...card.ends]) {
          const clip = record.fixing.clips[c.clip]!;
          expect(Math.abs(c.alongMm * 1000 + zero - clip.uUm)).toBeLessThanOrEqual(500);
          if (clip.kind !== "end") expect(clip.seam === card.row).toBe(card.part === "row");
        }
        const first = record.bond.pieces[0]!;
        expect(card.nearMm * 1000).toBe(record.setout.rows[card.row]!.v0Um - first.v0Um);
      }
    });
  }

  it("print every clip mark as a running dimension, and the lengths rounded down", () => {
    const record = plan();
    const cards = rowCardsOf(record);
    const sheets = cardPaper(record, en).sheets;
    expect(sheets).toHaveLength(cards.length);
    cards.forEach((card, i) => {
      const figures = printed(sheets[i]!);
      for (const clip of card.near) expect(figures).toContain(clip.alongMm);
      const said = texts(sheets[i]!).map((t) => t.text);
      for (const cut of card.pieces) {
        const piece = record.bond.pieces[cut.piece]!;
        expect(cut.stopMm * 1000).toBeLessThanOrEqual(piece.lengthUm);
        expect(cut.stopMm * 1000).toBeGreaterThan(piece.lengthUm - 1000);
        expect(said).toContain(cut.id);
        expect(said.some((t) => t.startsWith(en.write.mm(cut.stopMm)))).toBe(true);
      }
      expect(said.filter((t) => t.includes(en.write.mm(card.nearMm))).length).toBeGreaterThan(0);
    });
  });

  it("stay legible: 3.5 mm at least, inside the card, no figure over another", () => {
    for (const record of [plan(), plan(13, true)]) {
      for (const sheet of cardPaper(record, en).sheets) {
        expect([sheet.widthMm, sheet.heightMm]).toEqual([210, 148]);
        const upright: number[] = [];
        for (const t of texts(sheet)) {
          expect(t.heightMm).toBeGreaterThanOrEqual(3.5);
          if (t.turnDeg !== 0) {
            upright.push(t.at[0]);
            continue;
          }
          const wide = textWidthMm(t.text, t.heightMm, t.bold);
          const left = t.at[0] - (t.align === "right" ? wide : t.align === "centre" ? wide / 2 : 0);
          expect(left).toBeGreaterThanOrEqual(4);
          expect(left + wide).toBeLessThanOrEqual(206);
          expect(t.at[1]).toBeGreaterThanOrEqual(4);
          expect(t.text.endsWith("\u2026")).toBe(false);
        }
        upright.sort((a, b) => a - b);
        for (let i = 1; i < upright.length; i++) expect(upright[i]! - upright[i - 1]!).toBeGreaterThanOrEqual(3.5);
      }
    }
  });

  it("say where the tape's zero lies from what is laid already, and when the clips are fixed", () => {
    const record = plan();
    const cards = rowCardsOf(record);
    const sheets = cardPaper(record, en).sheets;
    const ends = new Map<number, number>();
    for (const piece of record.bond.pieces)
      ends.set(piece.row, Math.min(ends.get(piece.row) ?? Number.POSITIVE_INFINITY, piece.u0Um));
    cards.forEach((card, i) => {
      const said = texts(sheets[i]!)
        .map((t) => t.text)
        .join(" ");
      const below = ends.get(card.row - 1);
      if (below === undefined) expect(card.zeroFrom).toBeNull();
      else {
        expect(card.zeroFrom).toEqual({ row: card.row - 1, mm: Math.round((card.u0Um - below) / 1000) + 0 });
        expect(said).toContain(card.zeroFrom!.mm === 0 ? `flush with row ${card.row}` : `row ${card.row}'s left end`);
      }
      expect(said.includes("Fix the near clips, then lay.")).toBe(card.near.length > 0);
    });
  });

  it("leave every clip mark off while drilling is not released, and say so", () => {
    const record = plan(13, true);
    record.site.drillingReleased = false;
    for (const sheet of cardPaper(record, en).sheets) {
      expect(sheet.items.some((item) => item.kind === "mark")).toBe(false);
      expect(texts(sheet).some((t) => t.text === en.papers.cards.noDrill)).toBe(true);
      expect(texts(sheet).some((t) => t.turnDeg !== 0)).toBe(false);
      expect(texts(sheet).some((t) => t.text.includes("Depth stop"))).toBe(false);
    }
  });

  it("split a long row, each card with a zero of its own, and mark the check line", () => {
    const job = sampleJob();
    job.board.lengths[0]!.length = 600;
    const record = samplePlan(job, 5);
    const cards = rowCardsOf(record).filter((card) => card.row === 0);
    expect(cards.length).toBeGreaterThan(1);
    expect(cards.map((card) => `${card.number}/${card.of}`)).toEqual(cards.map((_, i) => `${i + 1}/${cards.length}`));
    for (const card of cards) {
      expect(card.pieces.length).toBeLessThanOrEqual(5);
      expect(card.spansMm[0]![0]).toBe(0);
    }
    expect(
      rowCardsOf(record)
        .filter((card) => card.check)
        .every((card) => card.row === 4),
    ).toBe(true);
  });
});

describe("figures moved apart", () => {
  it("keep their order and distance and stay where they are when there is room", () => {
    expect(spread([10, 30, 50], 5, 0, 100)).toEqual([10, 30, 50]);
    const moved = spread([10, 11, 12, 60], 5, 0, 100);
    expect(moved).toEqual([6, 11, 16, 60]);
    const edge = spread([99, 99, 99], 5, 0, 100);
    expect(edge).toEqual([90, 95, 100]);
  });
});
