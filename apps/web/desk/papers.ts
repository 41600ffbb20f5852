import type { OutFile } from "../../../desk/outcome.ts";
import { writePapers } from "../../../desk/papers.ts";
import type { Ask } from "./asks.ts";
import type { Bench } from "./work.ts";

/** The papers of the last plan. An unproved plan gives none. */
export async function papersAsk(bench: Bench, ask: Ask & { kind: "papers" }): Promise<OutFile[]> {
  const { proved, words } = bench;
  if (!proved || !words) throw new Error("no plan yet");
  if (!proved.check.ok) throw new Error("plan not proved");
  const load = (paths: string[]) =>
    Promise.all(paths.map(async (path) => new Uint8Array(await (await fetch(path)).arrayBuffer())));
  const fonts = { regular: await load(ask.fonts.regular), bold: await load(ask.fonts.bold) };
  const files = await writePapers(proved.record, proved.plan, words, fonts);
  return ask.only ? files.filter(({ name }) => ask.only!.includes(name)) : files;
}
