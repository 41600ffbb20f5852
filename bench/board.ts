/**
 * The drawing on the screen against a bare loop that fills the same number of visible rectangles, both in one run of the
 * same browser, frame by frame in turn. Writes bench/BOARD.md: `node --import tsx bench/board.ts`.
 */
import { writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { measureBoard } from "../apps/web/test/board-bench.ts";

const ROUNDS = 60;
const found = await measureBoard(ROUNDS);
const lines = [
  "# The drawing on the screen",
  "",
  "10,000 boards and 60,000 clips, 1200 x 800 px, software rendering (no GPU). Every frame is panned and zoomed a little and",
  "timed until its pixels are there. Bare: a loop that fills one rectangle for each board and clip in view, found by the same",
  `index, and nothing else. Median of ${ROUNDS} frames, ours and bare in turn. Asked for: at most 1.5 with everything in view.`,
  "",
  "| layer | look | scale | boards in view | clips in view | ours ms | bare ms | ours / bare |",
  "|---|---|---|---|---|---|---|---|",
  ...found.map(
    ({ layer, name, scale, boards, clips, oursMs, bareMs }) =>
      `| ${layer} | ${name} | 1 : ${scale} | ${boards} | ${clips} | ${oursMs.toFixed(1)} | ${bareMs.toFixed(1)} | ${(oursMs / bareMs).toFixed(2)} |`,
  ),
  "",
  "From afar rows are single fills and clips their lines; nearer, boards are single fills and clips dots; near, a board is two",
  "fills (outline, face) with its strokes, a clip its symbol: that costs more than one rectangle each, on few of them.",
  "",
  `Machine: ${cpus().length} cores, ${cpus()[0]?.model ?? "unknown"}; others were at work on it.`,
  "",
];
writeFileSync(new URL("./BOARD.md", import.meta.url), lines.join("\n"));
process.stdout.write(lines.join("\n"));
