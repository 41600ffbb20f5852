import { inflateSync } from "node:zlib";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { DESK, openApp, openBrowser, planned, type Served, serveApp } from "./browser.ts";

let browser: Browser;
let served: Served;
beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveApp()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

async function desk() {
  const context = await browser.newContext({ viewport: DESK });
  context.setDefaultTimeout(8_000);
  return context;
}
const step = (page: Page, name: string) => page.locator("nav.road").getByRole("button", { name, exact: true }).click();
const panel = (page: Page) => page.locator("section.panel");

test("the base is judged with its reasons, tells its figures on tap, and a limit changes the verdict", async () => {
  const context = await desk();
  const { page, faults } = await openApp(context, served.url);
  await step(page, "Base");
  await planned(page);
  await panel(page).getByText("The base must be made right before you lay.").waitFor();
  const flat = panel(page).getByRole("row", { name: /Off the best plane/ });
  expect(await flat.textContent()).not.toContain("fails");
  const board = await page.locator("canvas.board").boundingBox();
  await page.mouse.click(board!.x + board!.width / 2, board!.y + board!.height * 0.55);
  await panel(page)
    .getByText(/mm (above|below) the plane/)
    .waitFor();
  await page.locator("summary", { hasText: "Limits" }).click();
  await page.getByLabel("Most off the plane").fill("4,5");
  await page.getByLabel("Most off the plane").press("Enter");
  await planned(page);
  expect(await flat.textContent()).toContain("fails");
  expect(await page.getByLabel("Most off the plane").inputValue()).toBe("4.5\u2009mm");
  await page.getByLabel("Least fall", { exact: true }).fill("steep");
  await page.getByLabel("Least fall", { exact: true }).press("Enter");
  await panel(page).getByText("That is no figure.", { exact: false }).waitFor();
  expect(faults).toEqual([]);
  await context.close();
});

test("a material and a price are changed in place, and the sum follows", async () => {
  const context = await desk();
  const { page, faults } = await openApp(context, served.url);
  await step(page, "Prepare");
  await panel(page).getByText("Cheapest that can be had: One plane.").waitFor();
  await page.locator("summary", { hasText: "Materials" }).click();
  const cost = page.getByLabel("Cost a litre, EUR").first();
  const before = await panel(page).getByRole("table").last().textContent();
  await cost.fill("4.20");
  await cost.press("Enter");
  await planned(page);
  expect(await panel(page).getByRole("table").last().textContent()).not.toBe(before);
  await step(page, "Order");
  const price = page.getByLabel(/^Price of Terrace board/);
  await price.fill("30");
  await price.press("Enter");
  await planned(page);
  const row = page.locator(".takeoff tbody").first();
  expect(await row.textContent()).toContain("3\u2009390.00");
  await page.getByLabel("Price of End clip").fill("");
  await page.getByLabel("Price of End clip").press("Enter");
  await planned(page);
  await panel(page).getByText("Without a price, and not in the sum: End clip.").waitFor();
  expect(faults).toEqual([]);
  await context.close();
});

test("printed at the desk, the bar of 100 mm measures 100 mm", async () => {
  const context = await desk();
  await context.addInitScript(() => {
    window.print = () => {
      document.documentElement.dataset.printed = "true";
    };
  });
  const { page, faults } = await openApp(context, served.url);
  await step(page, "Order");
  await page.getByRole("button", { name: "Set-out, Print" }).click();
  await page.locator("html[data-printed=true]").waitFor();
  const pdf = await page.pdf({ preferCSSPageSize: true });
  // Sheets of A3, one a page: 420 x 297 mm within what a page is rounded to.
  const boxes = [...pdf.toString("latin1").matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)];
  expect(boxes.length).toBeGreaterThan(0);
  for (const [, width, height] of boxes) {
    expect(Math.abs((Number(width) / 72) * 25.4 - 420)).toBeLessThan(0.4);
    expect(Math.abs((Number(height) / 72) * 25.4 - 297)).toBeLessThan(0.4);
  }
  const bars = drawnWidthsMm(pdf).filter((mm) => Math.abs(mm - 100) < 2);
  expect(bars.length).toBeGreaterThan(0);
  for (const mm of bars) expect(Math.abs(mm - 100)).toBeLessThanOrEqual(0.1);
  expect(await page.locator(".print-sheets").count()).toBe(0);
  expect(faults).toEqual([]);
  await context.close();
});

/** Widths on paper of the drawn shapes that lie level and are thin: read from the PDF's own drawing commands. */
function drawnWidthsMm(pdf: Buffer): number[] {
  const found: number[] = [];
  const text = pdf.toString("latin1");
  for (const match of text.matchAll(/stream\r?\n/g)) {
    const start = match.index + match[0].length;
    let commands: string;
    try {
      commands = inflateSync(pdf.subarray(start, text.indexOf("endstream", start))).toString("latin1");
    } catch {
      continue;
    }
    let scale: [number, number] = [1, 1];
    const kept: [number, number][] = [];
    let path: [number, number][] = [];
    for (const line of commands.split("\n")) {
      const words = line.trim().split(/\s+/);
      const order = words[words.length - 1];
      const [a, , , d] = words.map(Number) as [number, number, number, number];
      if (order === "q") kept.push(scale);
      else if (order === "Q") scale = kept.pop() ?? [1, 1];
      else if (order === "cm") scale = [scale[0] * a, scale[1] * d];
      else if (order === "m") path = [[a, Number(words[1])]];
      else if (order === "l") path.push([a, Number(words[1])]);
      else if (order === "h" || order === "f" || order === "S") {
        if (path.length > 1) found.push(levelWidth(path, scale));
        path = [];
      }
    }
  }
  return found;
}

function levelWidth(path: readonly [number, number][], [sx, sy]: [number, number]): number {
  const mm = (value: number) => (value / 72) * 25.4;
  const xs = path.map(([x]) => mm(x * sx));
  const ys = path.map(([, y]) => mm(y * sy));
  const tall = Math.max(...ys) - Math.min(...ys);
  return tall < 2.2 ? Math.max(...xs) - Math.min(...xs) : 0;
}
