import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { DESK, openApp, openBrowser, PHONE, planned, type Served, serveApp } from "./browser.ts";
import { killRounds } from "./kill.ts";

let browser: Browser;
let served: Served;
beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveApp()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

const titleOf = (page: Page) => page.locator("h1").textContent();
async function rename(page: Page, title: string): Promise<void> {
  await page.locator("h1").click();
  await page.getByLabel("Name of the job").fill(title);
  await page.getByRole("button", { name: "Close", exact: true }).click();
  await planned(page);
}

test("a change is there after a reload, undo takes it back, also after another reload, and redo brings it again", async () => {
  const context = await browser.newContext({ viewport: PHONE, hasTouch: true });
  const { page, faults } = await openApp(context, served.url);
  await rename(page, "Back yard");
  await page.reload();
  await planned(page);
  expect(await titleOf(page)).toBe("Back yard");
  await page.getByRole("button", { name: "Undo the title" }).tap();
  await planned(page);
  await page.reload();
  await planned(page);
  expect(await titleOf(page)).toBe("Courtyard behind the bakehouse");
  await page.getByRole("button", { name: "Redo the title" }).tap();
  await planned(page);
  await page.reload();
  await planned(page);
  expect(await titleOf(page)).toBe("Back yard");
  expect(faults).toEqual([]);
  await context.close();
});

test("two tabs on one job see each other's changes and end with the same job", async () => {
  const context = await browser.newContext({ viewport: DESK });
  const [one, other] = [await openApp(context, served.url), await openApp(context, served.url)];
  await rename(one.page, "From the first tab");
  await expect.poll(() => titleOf(other.page)).toBe("From the first tab");
  await Promise.all([rename(one.page, "First again"), rename(other.page, "Second")]);
  await expect.poll(async () => (await titleOf(one.page)) === (await titleOf(other.page))).toBe(true);
  const last = await titleOf(one.page);
  expect(["First again", "Second"]).toContain(last);
  await one.page.reload();
  await planned(one.page);
  expect(await titleOf(one.page)).toBe(last);
  for (let i = 0; i < 3; i++) {
    await other.page.getByRole("button", { name: "Undo the title" }).click();
    await planned(other.page);
  }
  await expect.poll(() => titleOf(one.page)).toBe("Courtyard behind the bakehouse");
  expect([...one.faults, ...other.faults]).toEqual([]);
  await context.close();
});

test("a project file brings job and undo to another device", async () => {
  const here = await browser.newContext({ viewport: DESK });
  const first = await openApp(here, served.url);
  await rename(first.page, "Sent on");
  await first.page.locator("h1").click();
  const [download] = await Promise.all([
    first.page.waitForEvent("download"),
    first.page.getByRole("button", { name: "Save the project" }).click(),
  ]);
  expect(download.suggestedFilename()).toBe("Sent-on.project.json");
  const folder = mkdtempSync(join(tmpdir(), "rowline-"));
  const path = join(folder, "sent.project.json");
  await download.saveAs(path);
  await here.close();

  const there = await browser.newContext({ viewport: DESK });
  const { page, faults } = await openApp(there, served.url);
  await page.locator("h1").click();
  await page.getByLabel("Open a file").setInputFiles(path);
  await expect.poll(() => titleOf(page)).toBe("Sent on");
  await page.getByRole("button", { name: "Close", exact: true }).click();
  await page.getByRole("button", { name: "Undo the title" }).click();
  await planned(page);
  expect(await titleOf(page)).toBe("Courtyard behind the bakehouse");

  await page.locator("h1").click();
  const bad: [string, string, RegExp][] = [
    ["photo.jpg", "\u0089PNG", /photo\.jpg is neither a project nor a job/],
    ["torn.job.json", '{"format":"rowline/job@1","title":', /torn\.job\.json was not opened/],
    [
      "odd.job.json",
      '{"format":"rowline/job@1","title":"x","site":{"outlin":[]}}',
      /odd\.job\.json was not opened\. \d+ things/,
    ],
    ["late.project.json", '{"format":"rowline/project@9"}', /of a later Rowline/],
  ];
  for (const [name, text, says] of bad) {
    await page.getByLabel("Open a file").setInputFiles({ name, mimeType: "", buffer: Buffer.from(text) });
    await page.getByRole("alert").filter({ hasText: says }).waitFor();
  }
  expect(await titleOf(page)).toBe("Courtyard behind the bakehouse");
  expect(faults).toEqual([]);
  await there.close();
  rmSync(folder, { recursive: true });
});

test("five kills of the browser at random instants lose nothing that was acknowledged", async () => {
  const result = await killRounds(5, served.url, 20);
  expect(result.lost).toEqual([]);
  expect(result.rounds).toBe(5);
  expect(result.acknowledged).toBeGreaterThan(0);
});
