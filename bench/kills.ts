/** 200 kills of the browser during changes: nothing acknowledged may be lost. Run on demand: node --import tsx bench/kills.ts [kills] [seed] */
import { writeFileSync } from "node:fs";
import { serveApp } from "../apps/web/test/browser.ts";
import { killRounds } from "../apps/web/test/kill.ts";

const kills = Number(process.argv[2] ?? 200);
const seed = Number(process.argv[3] ?? 1);
const served = await serveApp();
const { rounds, acknowledged, unacknowledgedButKept, lost } = await killRounds(kills, served.url, seed, (round) => {
  if (round % 10 === 0) process.stderr.write(`  ${round} kills\n`);
});
await served.close();
const result = `# Kills of the browser during changes

Each round starts the browser on the same profile, changes the job's name as fast as the page takes it, and kills all of the
browser's processes (SIGKILL) at a random instant of the first 1.2 s. The next start is held against what the page had said was kept.
A kill of the browser is not a loss of power: that the disk itself keeps what it acknowledged is the machine's part (the log asks for
strict durability).

| | |
|---|---|
| kills | ${rounds} |
| seed of the instants | ${seed} |
| changes acknowledged before a kill | ${acknowledged} |
| changes found again that had not been acknowledged yet | ${unacknowledgedButKept} |
| acknowledged changes lost, or a state that is none of the records' | ${lost.length} |
${lost.length > 0 ? `\n${lost.map((one) => `- ${one}`).join("\n")}\n` : ""}
Written by \`node --import tsx bench/kills.ts ${kills} ${seed}\`.
`;
writeFileSync(new URL("KILLS.md", import.meta.url), result);
process.stdout.write(result);
process.exitCode = lost.length > 0 ? 1 : 0;
