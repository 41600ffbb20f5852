/**
 * Spoilt jobs by the thousand: `node --import tsx fuzz/job.ts CASES [FIRST]`. Each case must end as planned, as a stop or
 * as refused with a place and a sentence; never thrown, unproved, or longer than 20 s. The cases run in a second
 * process of 1 GB, so that a case that hangs or eats memory is named and the rest go on. Every hundredth writes the papers too.
 */
import { fork } from "node:child_process";
import { appendFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { readFonts } from "../apps/cli/fonts.ts";
import { runCase } from "./case.ts";

const LONGEST_MS = 20_000;
const MOST_MB = 1024;
const PAPERS_EVERY = 100;

type Report =
  | { kind: "begin"; seed: number }
  | { kind: "end"; seed: number; ended: string; codes: string[]; defects: string[]; ms: number };

const [cases = "1000", first = "1", last] = process.argv.slice(2);
if (process.send && last !== undefined) await follow(Number(first), Number(last));
else await lead(Number(cases), Number(first));

async function follow(first: number, last: number): Promise<void> {
  const fonts = readFonts();
  const say = (report: Report): void => {
    process.send!(report);
  };
  for (let seed = first; seed <= last; seed++) {
    say({ kind: "begin", seed });
    const begun = performance.now();
    try {
      const result = await runCase(seed, seed % PAPERS_EVERY === 0 ? fonts : null);
      say({ kind: "end", seed, ...result, ms: performance.now() - begun });
    } catch (cause) {
      const fault =
        cause instanceof Error ? (cause.stack ?? cause.message).split("\n").slice(0, 3).join(" ") : String(cause);
      say({
        kind: "end",
        seed,
        ended: "thrown",
        codes: [],
        defects: [`thrown: ${fault}`],
        ms: performance.now() - begun,
      });
    }
  }
}

async function lead(cases: number, first: number): Promise<void> {
  const counts = new Map<string, number>();
  const codes = new Map<string, number>();
  const times: number[] = [];
  const defects: string[] = [];
  const add = (map: Map<string, number>, key: string): void => {
    map.set(key, (map.get(key) ?? 0) + 1);
  };
  const last = first + cases - 1;
  const tell = (line: string): void => {
    defects.push(line);
    process.stdout.write(`${line}\n`);
    if (process.env.FUZZ_LOG) appendFileSync(process.env.FUZZ_LOG, `${line}\n`);
  };
  let next = first;
  while (next <= last)
    next = await watch(next, last, (report) => {
      add(counts, report.ended);
      for (const code of report.codes) add(codes, code);
      for (const defect of report.defects) tell(`${report.seed}: ${defect}`);
      times.push(report.ms);
      if (times.length % 500 === 0) process.stdout.write(`${times.length} cases, ${defects.length} defects\n`);
    });
  times.sort((a, b) => a - b);
  const at = (share: number): string =>
    (times[Math.min(times.length - 1, Math.floor(times.length * share))] ?? 0).toFixed(0);
  process.stdout.write(
    [
      `cases ${times.length}, seeds ${first} to ${last}, defects ${defects.length}`,
      `ended: ${[...counts].map(([key, n]) => `${key} ${n}`).join(", ")}`,
      `ms a case: median ${at(0.5)}, 99 % ${at(0.99)}, most ${at(1)}`,
      `problem codes met (${codes.size}): ${[...codes]
        .sort((a, b) => b[1] - a[1])
        .map(([key, n]) => `${key} ${n}`)
        .join(", ")}`,
      "",
    ].join("\n"),
  );
  process.exitCode = defects.length > 0 ? 1 : 0;
}

/** Follows one process until it has done all or must be stopped; the seed to go on from. */
function watch(first: number, last: number, take: (report: Report & { kind: "end" }) => void): Promise<number> {
  return new Promise((resolve) => {
    const worker = fork(fileURLToPath(import.meta.url), ["-", String(first), String(last)], {
      execArgv: [...process.execArgv, `--max-old-space-size=${MOST_MB}`],
      stdio: ["ignore", "ignore", "ignore", "ipc"],
    });
    let seed = first;
    let timer: NodeJS.Timeout | undefined;
    let done = false;
    const give = (next: number): void => {
      if (done) return;
      done = true;
      clearTimeout(timer);
      worker.kill("SIGKILL");
      resolve(next);
    };
    const fail = (defect: string, ms: number): void => {
      if (done) return;
      take({ kind: "end", seed, ended: "lost", codes: [], defects: [defect], ms });
      give(seed + 1);
    };
    worker.on("message", (report: Report) => {
      if (done) return;
      if (report.kind === "begin") {
        seed = report.seed;
        clearTimeout(timer);
        timer = setTimeout(() => fail("hangs: more than 20 s", LONGEST_MS), LONGEST_MS);
      } else {
        take(report);
        if (report.seed === last) give(last + 1);
      }
    });
    worker.once("exit", (code) => fail(`process lost (${code}): memory or a crash`, 0));
  });
}
