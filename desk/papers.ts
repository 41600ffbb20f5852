import type { PlanFile } from "../core/plan/plan.ts";
import type { PlanRecord } from "../core/plan/record.ts";
import { basePaper } from "../papers/base.ts";
import { cardPaper } from "../papers/cards.ts";
import { cutGrid, cutPaper } from "../papers/cutlist.ts";
import { findingsPaper } from "../papers/findings.ts";
import { fixingPaper } from "../papers/fixing.ts";
import type { Grid } from "../papers/grid.ts";
import { orderGrid, orderPaper } from "../papers/order.ts";
import { setoutPaper } from "../papers/setout.ts";
import type { Paper } from "../papers/sheet.ts";
import { stakingGrid, stakingPaper } from "../papers/staking.ts";
import { summaryPaper } from "../papers/summary.ts";
import type { Words } from "../words/words.ts";
import { writeCsv } from "../write/csv.ts";
import { writeDxf } from "../write/dxf.ts";
import type { FontBytes } from "../write/font/files.ts";
import { writePdf } from "../write/pdf.ts";
import { writeSvg } from "../write/svg.ts";
import { writeXlsx } from "../write/xlsx.ts";
import type { OutFile } from "./outcome.ts";

/** Every paper of a proved plan, in the order a fitter wants them. `proof` is the checker's line; `finished` rows get no card. */
export function papersOf(
  record: PlanRecord,
  words: Words,
  proof: string,
  finished: ReadonlySet<number> = new Set(),
): Paper[] {
  return [
    summaryPaper(record, words, proof),
    findingsPaper(record, words),
    basePaper(record, words, words.drawing, proof),
    stakingPaper(record, words),
    setoutPaper(record, words, words.drawing, proof),
    fixingPaper(record, words, words.drawing, proof),
    cutPaper(record, words),
    cardPaper(record, words, finished),
    orderPaper(record, words),
  ];
}

export function gridsOf(record: PlanRecord, words: Words): Grid[] {
  const staking = stakingGrid(record, words);
  return [orderGrid(record, words), cutGrid(record, words), ...(staking ? [staking] : [])];
}

/** The plan file as it is kept: same plan, same bytes. */
export function planText(plan: PlanFile): string {
  return `${JSON.stringify(plan, null, 1)}\n`;
}

/** plan.json and every paper: PDF all, SVG all, DXF the drawings, CSV and XLSX the lists. */
export async function writePapers(
  record: PlanRecord,
  plan: PlanFile,
  words: Words,
  fonts: FontBytes,
  finished: ReadonlySet<number> = new Set(),
): Promise<OutFile[]> {
  const files: OutFile[] = [{ name: "plan.json", bytes: planText(plan) }];
  for (const paper of papersOf(record, words, plan.summary, finished)) {
    files.push({ name: `${paper.name}.pdf`, bytes: await writePdf(paper, fonts) });
    for (const sheet of paper.sheets) files.push({ name: `${sheet.name}.svg`, bytes: writeSvg(sheet) });
    if (paper.dxf) files.push({ name: `${paper.name}.dxf`, bytes: writeDxf(paper) });
  }
  const grids = gridsOf(record, words);
  for (const grid of grids) files.push({ name: `${grid.name}.csv`, bytes: writeCsv(grid) });
  files.push({ name: "order.xlsx", bytes: writeXlsx(grids.filter((grid) => grid.name === "order")) });
  return files;
}
