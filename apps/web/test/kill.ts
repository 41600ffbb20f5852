import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type LaunchOptions, type Page } from "playwright-core";
import { browserOptions, planned } from "./browser.ts";

export interface KillResult {
  rounds: number;
  /** Changes the page said were kept, and those it found again though it had not said so yet. */
  acknowledged: number;
  unacknowledgedButKept: number;
  /** What was acknowledged and gone; sentences. Empty is the law. */
  lost: string[];
}

/**
 * Kills the browser's processes (SIGKILL) at random instants while the job's name is changed as fast as the page takes it, starts it
 * again on the same profile, and compares: every acknowledged change has to be there, and the name has to be that of the last
 * record kept. `seed` fixes the instants asked for (the machine's own timing adds chance of its own).
 */
export async function killRounds(
  rounds: number,
  url: string,
  seed: number,
  tell: (round: number) => void = () => {},
): Promise<KillResult> {
  const profile = mkdtempSync(join(tmpdir(), "rowline-kill-"));
  const options = await browserOptions();
  const chance = randomFrom(seed);
  const result: KillResult = { rounds: 0, acknowledged: 0, unacknowledgedButKept: 0, lost: [] };
  let started: { kept: number; acked: number; round: number } | null = null;
  let running: ChildProcess | null = null;
  try {
    for (let round = 1; round <= rounds + 1; round++) {
      running = launch(profile, options);
      const process = running;
      const { browser, page } = await start(profile, url);
      const kept = await keptOf(page);
      if (started) judge(started, kept, await page.locator("h1").textContent(), result);
      if (round > rounds) {
        kill(process);
        await browser.close().catch(() => {});
        break;
      }
      started = { kept, acked: kept, round };
      const mine = started;
      await page.exposeFunction("rowlineKept", (count: number) => {
        mine.acked = Math.max(mine.acked, count);
      });
      await page.locator("h1").click();
      await page.getByLabel("Name of the job").waitFor();
      await page.evaluate(`{ const round = ${round}; ${CHANGE_NAMES} }`);
      await new Promise((done) => setTimeout(done, chance() * 1_200));
      kill(process);
      await browser.close().catch(() => {});
      result.rounds++;
      tell(round);
    }
  } finally {
    if (running) kill(running);
  }
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  return result;
}

function judge(
  { kept: before, acked, round }: { kept: number; acked: number; round: number },
  kept: number,
  title: string | null,
  result: KillResult,
): void {
  result.acknowledged += acked - before;
  result.unacknowledgedButKept += Math.max(0, kept - acked);
  if (kept < acked) result.lost.push(`round ${round}: ${acked} records were acknowledged, ${kept} are there`);
  if (kept > before && title !== `${round}-${kept - before}`)
    result.lost.push(`round ${round}: ${kept - before} changes are there, the name is ${title}`);
}

/** Runs in the page: changes the name without a pause, and hands out what the page says is kept. A text, so that no tool rewrites it. */
const CHANGE_NAMES = `
  const app = document.querySelector(".app");
  const input = document.querySelector(".menu input[type=text]");
  new MutationObserver(() => rowlineKept(Number(app.dataset.kept))).observe(app, { attributeFilter: ["data-kept"] });
  let count = 0;
  const change = () => {
    input.value = round + "-" + ++count;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    // The page takes the typed text in before it is left.
    setTimeout(() => {
      input.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
      setTimeout(change, count % 7);
    }, 1);
  };
  change();
`;

async function keptOf(page: Page): Promise<number> {
  return Number(await page.locator(".app").getAttribute("data-kept"));
}

function launch(profile: string, { executablePath, args }: LaunchOptions): ChildProcess {
  rmSync(join(profile, "DevToolsActivePort"), { force: true });
  return spawn(
    executablePath!,
    [...args!, "--headless", "--remote-debugging-port=0", `--user-data-dir=${profile}`, "about:blank"],
    { detached: true, stdio: "ignore" },
  );
}

async function start(profile: string, url: string): Promise<{ browser: Browser; page: Page }> {
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${await portOf(profile)}`);
  const context = browser.contexts()[0]!;
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(url);
  await planned(page);
  return { browser, page };
}

/** The port the browser wrote down when it stood. */
async function portOf(profile: string): Promise<string> {
  for (let tries = 0; tries < 200; tries++) {
    try {
      const [port] = readFileSync(join(profile, "DevToolsActivePort"), "utf8").split("\n");
      if (port) return port;
    } catch {
      // not there yet
    }
    await new Promise((done) => setTimeout(done, 50));
  }
  throw new Error("the browser did not start");
}

/** Ends the browser and its children, which stand in a group of their own. */
function kill(child: ChildProcess): void {
  try {
    process.kill(-child.pid!, "SIGKILL");
  } catch {
    // it has ended by itself
  }
}

/** Small generator (mulberry32): the same instants for the same seed. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}
