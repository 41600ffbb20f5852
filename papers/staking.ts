import type { PlanRecord } from "../core/plan/record.ts";
import type { PreparationOption } from "../core/stages/preparation/record.ts";
import type { Words } from "../words/words.ts";
import { type Grid, numberColumn, textColumn } from "./grid.ts";
import { type Block, listSheets } from "./page.ts";
import type { Paper } from "./sheet.ts";

/** Most readings printed; the CSV holds them all. */
const PRINTED = 2000;
/** Less than this is left as it is, mm: the list shows tenths. */
const NOTHING_MM = 0.05;

/** Every reading with what to do there: CSV. Null where nothing is chosen. */
export function stakingGrid(record: PlanRecord, words: Words): Grid | null {
  const option = chosenOf(record);
  if (!option) return null;
  const w = words.papers.stakes;
  return {
    name: "staking",
    title: w.title,
    columns: [
      numberColumn(w.number),
      numberColumn(`${w.x} mm`),
      numberColumn(`${w.y} mm`),
      numberColumn(`${w.now} mm`, 1),
      numberColumn(`${w.shall} mm`, 1),
      numberColumn(`${w.change} mm`, 1),
      textColumn(w.work),
    ],
    rows: option.stakes.map((stake, i) => [
      i + 1,
      stake.at[0],
      stake.at[1],
      stake.nowMm,
      stake.thenMm,
      stake.changeMm,
      workWord(stake.changeMm, words),
    ]),
  };
}

/** The staking list on A4, where something is to be done; what stays as it is is counted, the CSV names it; where there is nothing to stake, a sheet that says why. */
export function stakingPaper(record: PlanRecord, words: Words): Paper {
  const w = words.papers.stakes;
  const sheets = listSheets(record, words, "staking", w.title, blocksOf(record, words));
  return { name: "staking", title: w.title, sheets, dxf: false };
}

function blocksOf(record: PlanRecord, words: Words): Block[] {
  const w = words.papers.stakes;
  const { write } = words;
  const option = chosenOf(record);
  if (!option) {
    return [{ kind: "text", text: record.surface.surface === null ? w.noLevels : w.noOption, heightMm: 3.5 }];
  }
  const numbered = option.stakes.map((stake, i) => ({ stake, number: i + 1 }));
  const worked = numbered.filter(({ stake }) => Math.abs(stake.changeMm) >= NOTHING_MM);
  const kept = numbered.length - worked.length;
  const rows = worked
    .slice(0, PRINTED)
    .map(({ stake, number }) => [
      String(number),
      write.mm(stake.at[0]),
      write.mm(stake.at[1]),
      write.mm1(stake.nowMm),
      write.mm1(stake.thenMm),
      signed(stake.changeMm, words),
      workWord(stake.changeMm, words),
      "",
    ]);
  const right = "right" as const;
  const columns = [
    { head: w.number, widthMm: 14, align: right },
    { head: w.x, widthMm: 24, align: right },
    { head: w.y, widthMm: 24, align: right },
    { head: w.now, widthMm: 24, align: right },
    { head: w.shall, widthMm: 26, align: right },
    { head: w.change, widthMm: 26, align: right, bold: true },
    { head: w.work, widthMm: 22 },
    { head: w.done, widthMm: 20 },
  ];
  const materials = option.materials.map((m) =>
    w.material(m.name, write.number(m.litres, 1), m.bags === null ? null : write.number(m.bags, 0)),
  );
  return [
    {
      kind: "text",
      text: w.option(w.optionWords[option.option], write.money(option.costMinor, record.job.currency)),
      heightMm: 3,
      bold: true,
    },
    ...materials.map((text): Block => ({ kind: "text", text })),
    { kind: "text", text: w.how },
    ...(kept > 0 ? [{ kind: "text" as const, text: w.kept(write.number(kept, 0)) }] : []),
    ...(rows.length > 0 ? [{ kind: "table" as const, columns, rows, look: { rowMm: 6, ruled: true } }] : []),
    ...(worked.length > PRINTED
      ? [{ kind: "text" as const, text: w.more(write.number(worked.length - PRINTED, 0)) }]
      : []),
  ];
}

export function chosenOf(record: PlanRecord): PreparationOption | null {
  const { chosen, options } = record.preparation;
  return chosen === null ? null : options[chosen]!;
}

function signed(mm: number, words: Words): string {
  return mm > 0 ? `+${words.write.mm1(mm)}` : words.write.mm1(mm);
}

function workWord(changeMm: number, words: Words): string {
  const w = words.papers.stakes;
  if (Math.abs(changeMm) < NOTHING_MM) return w.keep;
  return changeMm < 0 ? w.grind : w.fill;
}
