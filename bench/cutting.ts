/**
 * Boards over certified bounds, free joints over last-offcut practice, and time; run by hand: `npx tsx bench/cutting.ts`.
 * Writes RESULTS-cutting.md beside itself. Ratios count; times are of a shared machine.
 */
import { writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { freeJoints } from "../core/stages/bond/free.ts";
import { practiceJoints } from "../core/stages/bond/free-practice.ts";
import { freeRules } from "../core/stages/bond/free-rows.ts";
import { cutBoards } from "../core/stages/cutting/cutting.ts";
import { halfJoints, jobOf, piecesOf, randomTerrace, setOutTerrace } from "./cutting-terraces.ts";

const BOARD = { lengths: [{ length: 1500, price: 2140 }], width: 145, rise: 25 };
const lines: string[] = [];

halfBond();
freeBond();
speed();
writeFileSync(
  new URL("./RESULTS-cutting.md", import.meta.url),
  `# Cutting: boards, bounds, joints, time

Node ${process.version}, ${cpus().length} cores, shared with other work. Boards of 1500 x 145 mm, kerf 3 mm, side and end gap 5 mm, random
terraces of whole millimetres with fixed seeds (cutting-terraces.ts). Made by \`npx tsx bench/cutting.ts\`.

${lines.join("\n")}
`,
);

function halfBond(): void {
  lines.push(
    "## Half bond: boards over the certified bound for the same pieces",
    "",
    "| shape | terraces | m2 | boards | bound | ratio | bound met | time together |",
    "|---|---|---|---|---|---|---|---|",
  );
  const job = jobOf({ board: BOARD });
  const areas = [15, 30, 60, 128, 240, 500, 1000];
  for (const shape of ["rectangle", "L", "trapezoid"] as const) {
    let boards = 0;
    let bound = 0;
    let met = 0;
    let ms = 0;
    for (let i = 0; i < 42; i++) {
      const setout = setOutTerrace(job, randomTerrace(i + 1, areas[i % areas.length]!, shape));
      const bond = piecesOf(job, setout, halfJoints(job, setout, 700_000), "half");
      const start = performance.now();
      const cutting = cutBoards(job, setout, bond);
      ms += performance.now() - start;
      boards += cutting.boards.length;
      bound += cutting.boardsAtLeast;
      if (cutting.boards.length === cutting.boardsAtLeast) met++;
    }
    lines.push(
      `| ${shape} | 42 | 15-1000 | ${boards} | ${bound} | ${(boards / bound).toFixed(5)} | ${met} | ${ms.toFixed(0)} ms |`,
    );
  }
  lines.push("");
}

function freeBond(): void {
  lines.push(
    "## Free joints: boards over the bound for all legal joints, and laying each row from the last row's offcut",
    "",
    "The bound grants every board the most pieces, and so end gaps, that `minPiece` allows: it can be no nearer than about",
    "0.4 % for 1500 mm boards where the end gap is wider than the kerf.",
    "",
    "| shape | stagger | terraces | free / bound | practice / bound | free / practice | cuts free | cuts practice | time together |",
    "|---|---|---|---|---|---|---|---|---|",
  );
  let free = 0;
  let practice = 0;
  let bound = 0;
  for (const stagger of [300, 500])
    for (const shape of ["rectangle", "L", "trapezoid"] as const) {
      const job = jobOf({ board: BOARD, bond: { kind: "free", stagger } });
      const sum = { free: 0, practice: 0, bound: 0, cuts: 0, practiceCuts: 0, ms: 0 };
      for (let i = 0; i < 24; i++) {
        const setout = setOutTerrace(job, randomTerrace(i + 101, [15, 60, 240][i % 3]!, shape));
        const start = performance.now();
        const chosen = freeJoints(job, setout);
        sum.ms += performance.now() - start;
        const ours = cutBoards(job, setout, piecesOf(job, setout, chosen.joints, "free"));
        const theirs = cutBoards(
          job,
          setout,
          piecesOf(job, setout, practiceJoints(setout, freeRules(job, 1_500_000)), "free"),
        );
        sum.free += ours.boards.length;
        sum.practice += theirs.boards.length;
        sum.bound += ours.boardsAtLeast;
        sum.cuts += ours.cuts;
        sum.practiceCuts += theirs.cuts;
      }
      free += sum.free;
      practice += sum.practice;
      bound += sum.bound;
      const ratio = (a: number, b: number): string => (a / b).toFixed(4);
      lines.push(
        `| ${shape} | ${stagger} | 24 | ${ratio(sum.free, sum.bound)} | ${ratio(sum.practice, sum.bound)} | ${ratio(sum.free, sum.practice)} | ${sum.cuts} | ${sum.practiceCuts} | ${sum.ms.toFixed(0)} ms |`,
      );
    }
  lines.push(
    `| all | | 144 | ${(free / bound).toFixed(4)} | ${(practice / bound).toFixed(4)} | ${(free / practice).toFixed(4)} | | | |`,
    "",
  );
}

function speed(): void {
  lines.push(
    "## Time, best of several",
    "",
    "| m2 | shape | pieces | half bond: cutBoards | freeJoints |",
    "|---|---|---|---|---|",
  );
  for (const area of [60, 2000, 10_000])
    for (const shape of ["rectangle", "trapezoid"] as const) {
      const job = jobOf({ board: BOARD });
      const setout = setOutTerrace(job, randomTerrace(7, area, shape));
      const bond = piecesOf(job, setout, halfJoints(job, setout, 700_000), "half");
      const times = area === 60 ? 20 : 3;
      const cut = fastest(times, () => cutBoards(job, setout, bond));
      const free = area > 2000 ? null : fastest(times, () => freeJoints(job, setout));
      lines.push(
        `| ${area} | ${shape} | ${bond.pieces.length} | ${cut.toFixed(1)} ms | ${free === null ? "" : `${free.toFixed(0)} ms`} |`,
      );
    }
}

function fastest(times: number, work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < times; i++) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}
