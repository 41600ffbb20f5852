import type { OutFile } from "../../../desk/outcome.ts";
import { gridsOf, papersOf, planText } from "../../../desk/papers.ts";
import type { Proved } from "../../../desk/prove.ts";
import type { Words } from "../../../words/words.ts";
import { writeCsv } from "../../../write/csv.ts";
import { writeDxf } from "../../../write/dxf.ts";
import type { FontBytes } from "../../../write/font/files.ts";
import { writePdf } from "../../../write/pdf.ts";
import { writeSvg } from "../../../write/svg.ts";
import { writeXlsx } from "../../../write/xlsx.ts";
import type { Ask } from "./asks.ts";
import type { Bench } from "./work.ts";

/** Papers of the last plan by file name ("setout.pdf", "setout.dxf", "order.csv", "plan.json"). An unproved plan gives none. */
export async function papersAsk(bench: Bench, ask: Ask & { kind: "papers" }): Promise<OutFile[]> {
  const { proved, words } = bench;
  if (!proved || !words) throw new Error("no plan yet");
  if (!proved.check.ok) throw new Error("plan not proved");
  const load = (paths: string[]) =>
    Promise.all(paths.map(async (path) => new Uint8Array(await (await fetch(path)).arrayBuffer())));
  const fonts = { regular: await load(ask.fonts.regular), bold: await load(ask.fonts.bold) };
  const files: OutFile[] = [];
  for (const name of ask.names) files.push(...(await write(name, proved, words, fonts)));
  return files;
}

/** One file; every sheet of it where the name ends in .svg; nothing where the plan has no such paper. */
async function write(name: string, proved: Proved, words: Words, fonts: FontBytes): Promise<OutFile[]> {
  const { record, plan } = proved;
  if (name === "plan.json") return [{ name, bytes: planText(plan) }];
  const [stem, kind] = [name.slice(0, name.lastIndexOf(".")), name.slice(name.lastIndexOf(".") + 1)];
  if (kind === "csv" || kind === "xlsx") {
    const grid = gridsOf(record, words).find((one) => one.name === stem);
    return grid ? [{ name, bytes: kind === "csv" ? writeCsv(grid) : writeXlsx([grid]) }] : [];
  }
  const paper = papersOf(record, words, plan.summary).find((one) => one.name === stem);
  if (!paper) return [];
  if (kind === "pdf") return [{ name, bytes: await writePdf(paper, fonts) }];
  // To be printed by the browser: the letters come with it.
  if (kind === "print")
    return paper.sheets.map((sheet) => ({ name: `${sheet.name}.svg`, bytes: writeSvg(sheet, fonts) }));
  if (kind === "svg") return paper.sheets.map((sheet) => ({ name: `${sheet.name}.svg`, bytes: writeSvg(sheet) }));
  return paper.dxf ? [{ name, bytes: writeDxf(paper) }] : [];
}
