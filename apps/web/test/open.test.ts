import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { DESK, openApp, openBrowser, type Served, serveApp } from "./browser.ts";

let browser: Browser;
let served: Served;
beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveApp()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

test("opens on the example job, planned and drawn, without a fault", async () => {
  const context = await browser.newContext({ viewport: DESK });
  const { page, faults } = await openApp(context, served.url);
  expect(await page.locator("h1").textContent()).toBe("Courtyard behind the bakehouse");
  const inked = await page.locator("canvas").evaluate((canvas: HTMLCanvasElement) => {
    const { data } = canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height);
    let dark = 0;
    for (let i = 3; i < data.length; i += 4) if (data[i]! > 128) dark++;
    return dark;
  });
  expect(inked).toBeGreaterThan(5_000);
  expect(faults).toEqual([]);
  await context.close();
});
