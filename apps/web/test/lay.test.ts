import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openApp, openBrowser, PHONE, planned, type Served, serveApp } from "./browser.ts";

let browser: Browser;
let served: Served;
beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveApp()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

async function phone() {
  const context = await browser.newContext({ viewport: PHONE, hasTouch: true });
  context.setDefaultTimeout(8_000);
  return context;
}
const step = (page: Page, name: string) => page.locator("nav.road").getByRole("button", { name, exact: true }).click();
const panel = (page: Page) => page.locator("section.panel");

test("rows are ticked by one tap a piece, outlive a reload, and a tick is taken back", async () => {
  const context = await phone();
  const { page, faults } = await openApp(context, served.url);
  await step(page, "Lay");
  await page.getByLabel("Who lays").fill("Mira");
  await page.getByRole("button", { name: /^p1 lies/ }).tap();
  await page.getByRole("button", { name: "The whole row lies" }).tap();
  expect(await panel(page).getByText("5 of 5 lie").count()).toBe(1);
  expect(await page.getByRole("button", { name: /does not lie/ }).count()).toBe(5);
  await planned(page);
  await page.reload();
  await planned(page);
  await step(page, "Lay");
  // The first open row comes up; the finished one is a tap away.
  expect(await panel(page).getByText("Row 2", { exact: false }).count()).toBeGreaterThan(0);
  expect(await page.getByLabel("Who lays").inputValue()).toBe("Mira");
  await page.getByRole("button", { name: "Row before" }).tap();
  await page.getByRole("button", { name: /^Take back: p\d+ lies/ }).tap();
  expect(await panel(page).getByText("4 of 5 lie").count()).toBe(1);
  await step(page, "Hand over");
  await panel(page)
    .getByText(/^4 of \d+ pieces, 0 of 28 rows whole/)
    .waitFor();
  expect(faults).toEqual([]);
  await context.close();
});

test("a row that came out long is taken up, a crooked wall plans only what is not laid, undo brings the old plan back", async () => {
  const context = await phone();
  const { page, faults } = await openApp(context, served.url);
  await step(page, "Lay");
  await page.getByRole("button", { name: "The whole row lies" }).tap();
  await page.getByRole("button", { name: "Next row" }).first().tap();
  await page.getByRole("button", { name: "The whole row lies" }).tap();

  await page.getByRole("button", { name: "The row came out long or short" }).tap();
  for (let i = 0; i < 4; i++) await page.getByRole("button", { name: "left: 1 mm more", exact: true }).tap();
  await page.getByRole("button", { name: "Enter it" }).tap();
  const means = panel(page).locator(".replanned");
  await means.getByText(/4\.0 mm beyond its line on the left/).waitFor();
  await means.getByText(/Take it up in the next/).waitFor();
  await means.getByRole("button", { name: "Close" }).tap();

  await page.getByRole("button", { name: "A board broke" }).tap();
  await page.locator(".form").getByRole("button", { name: /^p6,/ }).tap();
  await means.getByText(/Spoilt: piece p6/).waitFor();
  await means.getByText(/Still needed: boards/).waitFor();
  await means.getByRole("button", { name: "Close" }).tap();

  // The side opposite the start line bulges 12 mm into the terrace.
  await page.getByRole("button", { name: "The wall is not straight" }).tap();
  await page.locator(".form select").selectOption("4");
  const middle = page.getByRole("group", { name: "2 in the middle" });
  for (const key of ["1 mm more \u00d7 5", "1 mm more \u00d7 5", "1 mm more", "1 mm more"])
    await middle.getByRole("button", { name: `2 in the middle: ${key}`, exact: true }).tap();
  await page.getByRole("button", { name: "Enter it" }).tap();
  const took = await means.getByText(/^Planned in/).textContent();
  expect(Number(/[\d.]+/.exec(took!)![0])).toBeLessThanOrEqual(2);
  await means.getByText(/are in the new plan where and as they lie/).waitFor();
  await means.getByRole("button", { name: "Lay on by the new plan" }).tap();
  await means.getByText(/You lay by the new plan/).waitFor();
  await planned(page);
  await panel(page)
    .getByText(/^9 of \d+ pieces laid/)
    .waitFor();

  await page.getByRole("button", { name: "Undo", exact: false }).first().tap();
  await planned(page);
  await panel(page)
    .getByText(/^9 of \d+ pieces laid/)
    .waitFor();
  await page.getByRole("button", { name: /^Take back: wall of side 5/ }).waitFor();
  expect(faults).toEqual([]);
  await context.close();
});

test("while the base is not released for drilling the marks stay off, and a named confirmation brings them", async () => {
  const context = await phone();
  const { page, faults } = await openApp(context, served.url);
  await step(page, "Base");
  await page
    .getByRole("group", { name: "Heating within reach of the drill" })
    .getByRole("radio", { name: "Unknown" })
    .tap();
  await planned(page);
  await step(page, "Lay");
  await page.getByRole("button", { name: "Next row" }).tap();
  await panel(page)
    .getByText(/Not released for drilling/)
    .first()
    .waitFor();
  expect(await page.locator(".row-marks").count()).toBe(0);
  await page.getByRole("button", { name: "To the base step" }).tap();
  await page.locator("summary", { hasText: "Enter the confirmation" }).tap();
  await page.getByLabel("What is confirmed").selectOption("heating");
  await page.getByRole("button", { name: "Enter the confirmation" }).tap();
  await panel(page).getByText("A confirmation needs a name and a day.").waitFor();
  await page.getByLabel("Name", { exact: true }).fill("T. Brandvold, heating fitter");
  await page.getByRole("button", { name: "Enter the confirmation" }).tap();
  await panel(page).getByText("Released for drilling.", { exact: true }).waitFor();
  await planned(page);
  await step(page, "Lay");
  await page.getByRole("button", { name: "Next row" }).tap();
  await page.locator(".row-marks").first().waitFor();
  expect(faults).toEqual([]);
  await context.close();
});
