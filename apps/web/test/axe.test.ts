import axe from "axe-core";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { STEPS } from "../../../words/app.ts";
import { app as en } from "../../../words/en/app.ts";
import { DESK, openApp, openBrowser, PHONE, planned, type Served, serveApp } from "./browser.ts";

/** WCAG 2.2 A and AA as far as a program can judge them. */
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

let browser: Browser;
let served: Served;
beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveApp()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

/** What breaks a rule: the rule, and where. */
async function violations(page: Page): Promise<string[]> {
  if (!(await page.evaluate("typeof window.axe === 'object'"))) await page.evaluate(axe.source);
  const run = `axe.run(document, { runOnly: ${JSON.stringify(RULES)} }).then(({ violations }) =>
    violations.flatMap(({ id, nodes }) => nodes.map(({ target, failureSummary }) => id + " " + target.join(" ") + ": " + failureSummary)))`;
  return page.evaluate(run) as Promise<string[]>;
}

test("no step breaks a rule of WCAG 2.2 AA that axe can judge, on the phone by day and at the desk in the evening", async () => {
  const found: string[] = [];
  for (const [viewport, ground] of [
    [PHONE, "Day"],
    [DESK, "Evening"],
  ] as const) {
    const context = await browser.newContext({ viewport });
    const { page } = await openApp(context, served.url);
    await page.locator("h1").click();
    await page.getByLabel(ground).check();
    await page.getByRole("button", { name: "Close", exact: true }).click();
    for (const step of STEPS) {
      await page.getByRole("button", { name: en.steps[step].name, exact: true }).click();
      await planned(page);
      found.push(...(await violations(page)).map((one) => `${ground} ${step}: ${one}`));
    }
    await context.close();
  }
  expect(found).toEqual([]);
});

test("the job's sheet breaks none, in bright sun", async () => {
  const context = await browser.newContext({ viewport: PHONE });
  const { page } = await openApp(context, served.url);
  await page.locator("h1").click();
  await page.getByLabel("Bright sun").check();
  expect(await violations(page)).toEqual([]);
  await context.close();
});

test("the colours of words keep 4.5:1, and 7:1 in bright sun", async () => {
  const context = await browser.newContext({ viewport: DESK });
  const { page } = await openApp(context, served.url);
  for (const [ground, least] of [
    ["day", 4.5],
    ["evening", 4.5],
    ["sun", 7],
  ] as const) {
    const colours = (await page.evaluate(`{
      document.documentElement.dataset.ground = "${ground}";
      const style = getComputedStyle(document.documentElement);
      Object.fromEntries(["ground", "sheet", "field", "ink", "soft", "accent", "on-accent", "draw-ink", "draw-accent", "draw-grey"].map((name) => [name, style.getPropertyValue("--" + name).trim()]));
    }`)) as Record<string, string>;
    for (const [front, back] of [
      ["ink", "ground"],
      ["ink", "field"],
      ["soft", "ground"],
      ["accent", "ground"],
      ["on-accent", "accent"],
      ["draw-ink", "sheet"],
      ["draw-accent", "sheet"],
      ["draw-grey", "sheet"],
    ] as const)
      expect(contrast(colours[front]!, colours[back]!), `${ground}: ${front} on ${back}`).toBeGreaterThanOrEqual(least);
  }
  await context.close();
});

/** Contrast ratio by WCAG 2.2 (relative luminance of sRGB). */
function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

function luminance(hex: string): number {
  const full = hex.length === 4 ? hex.replace(/[0-9a-f]/gi, "$&$&") : hex;
  const [r, g, b] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(full.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
