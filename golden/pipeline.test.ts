import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { papersOf } from "../desk/papers.ts";
import type { Proved } from "../desk/plan.ts";
import { provedFile } from "../fixtures/proved.ts";
import { en } from "../words/en/index.ts";
import { writeSvg } from "../write/svg.ts";

/**
 * Sheets of jobs that were really planned and proved. One that differs is written beside the kept one as *.actual.svg; run
 * with GOLDEN=update to keep the new ones after you have looked at them.
 */
const KEPT: [job: string, sheets: string[]][] = [
  ["examples/courtyard", ["base-1", "setout-1", "fixing-1", "summary-1"]],
  ["fixtures/jobs/balcony", ["fixing-1", "setout-1", "card-1-1"]],
  ["fixtures/jobs/pool-coping", ["setout-1", "fixing-1"]],
  ["fixtures/jobs/ridge-slab", ["base-1"]],
  ["fixtures/jobs/niche", ["card-1-1", "cutlist-1"]],
];

describe.each(KEPT)("%s", (job, sheets) => {
  const { record, plan } = provedFile(`${job}.job.json`) as Proved;
  const drawn = new Map(
    papersOf(record, en, plan.summary).flatMap((paper) => paper.sheets.map((sheet) => [sheet.name, sheet])),
  );

  it.each(sheets)("%s is as kept", (sheet) => {
    const name = `real-${job.split("/").at(-1)}-${sheet}`;
    const file = new URL(`${name}.svg`, import.meta.url);
    const actual = new URL(`${name}.actual.svg`, import.meta.url);
    const svg = writeSvg(drawn.get(sheet)!);
    if (process.env.GOLDEN === "update") writeFileSync(file, svg);
    const good = existsSync(file) ? readFileSync(file, "utf8") : "";
    if (svg === good) rmSync(actual, { force: true });
    else writeFileSync(actual, svg);
    expect(svg === good, `${name}.svg differs: look at golden/${name}.actual.svg`).toBe(true);
  });
});
