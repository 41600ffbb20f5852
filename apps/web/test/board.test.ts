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

const drawing = (page: Page) => page.getByRole("application", { name: "Drawing of the terrace" });
/** A figure that differs when the drawing does. */
const picture = (page: Page) =>
  drawing(page).evaluate((canvas: HTMLCanvasElement) => {
    const { data } = canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height);
    let sum = 7;
    for (let i = 0; i < data.length; i += 4) sum = (sum * 31 + data[i]! + 256 * data[i + 2]!) % 2147483647;
    return sum;
  });

test("the drawing is moved, brought closer and walked by keys, and says what is picked", async () => {
  const context = await browser.newContext({ viewport: DESK });
  const { page, faults } = await openApp(context, served.url);
  const board = drawing(page);
  await board.focus();
  const closeAndBack = async () => {
    const before = await picture(page);
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("+");
    await expect.poll(() => picture(page)).not.toBe(before);
    await page.getByRole("button", { name: "Closer" }).click();
    await page.waitForTimeout(300);
    await planned(page);
    await board.focus();
    await page.keyboard.press("0");
    await page.waitForTimeout(300);
    await planned(page);
    return picture(page);
  };
  const whole = await closeAndBack();
  expect(await closeAndBack()).toBe(whole);

  await page.keyboard.press("Enter");
  const heading = page.getByRole("heading", { name: /^Row \d+, piece p\d+$/ });
  const here = await heading.textContent();
  await page.keyboard.press("ArrowUp");
  await expect.poll(() => heading.textContent()).not.toBe(here);
  const row = Number(/Row (\d+)/.exec(here!)![1]);
  expect(await heading.textContent()).toContain(`Row ${row + 1},`);
  await page.keyboard.press("Escape");
  await expect.poll(() => heading.count()).toBe(0);
  // Not walking: Tab leaves the drawing.
  await page.keyboard.press("Tab");
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("BUTTON");
  expect(faults).toEqual([]);
  await context.close();
});

test("a tap on a board tells where it comes from; its row's joints are kept and let go, each one step of undo", async () => {
  const context = await browser.newContext({ viewport: DESK });
  const { page, faults } = await openApp(context, served.url);
  const box = (await drawing(page).boundingBox())!;
  await page.mouse.click(box.x + box.width * 0.6, box.y + box.height * 0.55);
  await page.getByText(/^board b\d+/).waitFor();
  await page.getByRole("button", { name: /^Keep the joints of row/ }).click();
  await planned(page);
  await page.getByText(/^Joints kept in row \d+\.$/).waitFor();
  await page.getByRole("button", { name: "Undo the bond" }).click();
  await planned(page);
  expect(await page.getByText(/^Joints kept in row/).count()).toBe(0);
  expect(faults).toEqual([]);
  await context.close();
});

test("sliding shows a trial and takes one edit; ways side by side, one tap takes one", async () => {
  const context = await browser.newContext({ viewport: DESK });
  const { page, faults } = await openApp(context, served.url);
  const slide = page.getByRole("slider", { name: "First joint from the row's start" });
  const before = await picture(page);
  // A drag: many values, one change at its end.
  const track = (await slide.boundingBox())!;
  await page.mouse.move(track.x + track.width * 0.35, track.y + track.height / 2);
  await page.mouse.down();
  await page.mouse.move(track.x + track.width * 0.7, track.y + track.height / 2, { steps: 6 });
  await expect.poll(() => picture(page)).not.toBe(before);
  expect(await page.getByRole("button", { name: "Nothing to undo" }).count()).toBe(1);
  await page.mouse.up();
  await planned(page);
  await page.getByRole("button", { name: "Undo the bond" }).click();
  await planned(page);
  expect(await page.getByRole("button", { name: "Nothing to undo" }).count()).toBe(1);

  await page.getByRole("button", { name: "Work out the ways" }).click();
  const ways = page.getByRole("button", { name: /^Take / });
  await expect.poll(() => ways.count(), { timeout: 30_000 }).toBe(8);
  await page.getByRole("button", { name: "Work out the ways" }).waitFor();
  expect(await page.getByText("nothing beats it in every respect").count()).toBeGreaterThan(0);
  await page.getByRole("button", { name: "Take In line, 90°" }).click();
  await planned(page);
  expect(await page.getByRole("radio", { name: "In line" }).isChecked()).toBe(true);
  expect(faults).toEqual([]);
  await context.close();
});
