import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { loadJob } from "../core/plan/load.ts";
import { makePlan } from "../core/plan/make.ts";
import { en } from "../words/en/index.ts";
import { cardPaper } from "./cards.ts";
import { cutPaper } from "./cutlist.ts";
import { findingsPaper } from "./findings.ts";
import { orderPaper } from "./order.ts";
import { rowCardsOf } from "./rowCards.ts";
import { stakingPaper } from "./staking.ts";
import { summaryPaper } from "./summary.ts";

const JOBS = ["../examples/", "../fixtures/jobs/"].flatMap((folder) => {
  const place = new URL(folder, import.meta.url);
  const names = readdirSync(place).filter((name) => name.endsWith(".job.json"));
  return names.map((name) => [name, readFileSync(new URL(name, place), "utf8")] as const);
});

describe("papers of the example and of every fixture", () => {
  it.each(JOBS)("%s: nothing cut off, nothing off the sheet, every piece and clip on its card", (name, text) => {
    const read = loadJob(text, name);
    if (!read.ok) throw new Error(`${name} is refused`);
    const record = makePlan(read.value);
    const cards = rowCardsOf(record);
    const clips = cards.flatMap((card) => [...card.near, ...card.far, ...card.ends]).map((clip) => clip.clip);
    if (record.site.drillingReleased) expect(clips.sort((a, b) => a - b)).toEqual(record.fixing.clips.map((_, i) => i));
    const pieces = cards.filter((card) => card.part === "row").flatMap((card) => card.pieces.map((cut) => cut.piece));
    expect(pieces.sort((a, b) => a - b)).toEqual(record.bond.pieces.map((_, i) => i));
    const summary = summaryPaper(record, en, "None.");
    expect(summary.sheets).toHaveLength(1);
    const lists = [cutPaper, orderPaper, stakingPaper, findingsPaper].map((paper) => paper(record, en));
    for (const paper of [cardPaper(record, en), summary, ...lists]) {
      for (const sheet of paper.sheets) {
        for (const item of sheet.items) {
          if (item.kind !== "text") continue;
          expect(item.text.endsWith("\u2026")).toBe(false);
          expect(item.at[0]).toBeGreaterThanOrEqual(0);
          expect(item.at[0]).toBeLessThanOrEqual(sheet.widthMm);
          expect(item.at[1]).toBeGreaterThanOrEqual(4);
          expect(item.at[1]).toBeLessThanOrEqual(sheet.heightMm);
        }
      }
    }
  });
});
