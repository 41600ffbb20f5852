import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { DESK, openApp, openBrowser, serveApp, webFolder } from "./browser.ts";

const MOST_KB = 350;

test(`script before the first drawing, the planner's worker counted, is at most ${MOST_KB} kB compressed`, async () => {
  const folder = await webFolder();
  const kb = (path: string) => gzipSync(readFileSync(join(folder, path)), { level: 9 }).length / 1000;
  const [browser, served] = await Promise.all([openBrowser(), serveApp()]);
  const context = await browser.newContext({ viewport: DESK, serviceWorkers: "block" });
  await openApp(context, served.url);
  const asked = [...new Set(served.asked.map((path) => path.slice(1)))].filter((path) => path.endsWith(".js"));
  await browser.close();
  await served.close();
  const later = readdirSync(join(folder, "assets"))
    .map((name) => `assets/${name}`)
    .filter((path) => path.endsWith(".js") && !asked.includes(path));
  const list = (paths: string[]) => paths.map((path) => `${kb(path).toFixed(1).padStart(8)} kB  ${path}`).join("\n");
  const total = asked.reduce((sum, path) => sum + kb(path), 0);
  process.stdout.write(
    `script before the first drawing (gzip): ${total.toFixed(1)} kB\n${list(asked)}\nwhen needed:\n${list(later)}\n`,
  );
  expect(asked.some((path) => path.includes("plan.worker"))).toBe(true);
  expect(total).toBeLessThanOrEqual(MOST_KB);
});
