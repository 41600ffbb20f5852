import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openApp, openBrowser, PHONE, planned, serveApp, webFolder } from "./browser.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

/** Waits until the browser has taken the whole build into its keeping. */
const keptWhole = (page: Page) =>
  page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (!navigator.serviceWorker.controller) await new Promise((done) => setTimeout(done, 20));
  });

test("with the server gone: reload, a new start, and a paper", async () => {
  const served = await serveApp();
  const context = await browser.newContext({ viewport: PHONE });
  const { page, faults } = await openApp(context, served.url);
  await keptWhole(page);
  await served.close();
  await page.reload();
  await planned(page);
  await page.close();

  const again = await openApp(context, served.url);
  await again.page.locator("h1").click();
  await again.page.getByText("Ready to work without a signal.").waitFor();
  const [download] = await Promise.all([
    again.page.waitForEvent("download"),
    again.page.getByRole("button", { name: "Set-out", exact: true }).click(),
  ]);
  expect(download.suggestedFilename()).toBe("setout.pdf");
  const pdf = readFileSync(await download.path());
  expect(pdf.subarray(0, 5).toString("latin1")).toBe("%PDF-");
  expect(pdf.length).toBeGreaterThan(10_000);
  expect([...faults, ...again.faults]).toEqual([]);
  await context.close();
});

test("a newer build waits: an open page and its reload stay with the old one, the next start has the new one", async () => {
  const folder = mkdtempSync(join(tmpdir(), "rowline-next-"));
  cpSync(await webFolder(), folder, { recursive: true });
  const alter = (name: string, from: RegExp, to: string) => {
    const text = readFileSync(join(folder, name), "utf8");
    expect(text).toMatch(from);
    writeFileSync(join(folder, name), text.replace(from, to));
  };
  alter("index.html", /<title>/, '<meta name="build" content="next" /><title>');
  alter("sw.js", /ROWLINE_BUILD="[0-9a-f]+"/, 'ROWLINE_BUILD="next"');

  const old = await serveApp();
  const context = await browser.newContext({ viewport: PHONE });
  const { page } = await openApp(context, old.url);
  await keptWhole(page);
  await old.close();
  const next = await serveApp(old.port, folder);
  const build = (where: Page) => where.locator("meta[name=build]").count();
  await page.reload();
  await planned(page);
  await page.locator("h1").click();
  await page.getByText("A newer version is here.").waitFor();
  await page.reload();
  await planned(page);
  expect(await build(page)).toBe(0);
  await page.close();
  await expect
    .poll(async () => {
      const { page: start } = await openApp(context, next.url);
      const count = await build(start);
      await start.close();
      return count;
    })
    .toBe(1);
  await context.close();
  await next.close();
  rmSync(folder, { recursive: true });
});
