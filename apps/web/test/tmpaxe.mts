import { openBrowser, serveApp, openApp, planned, DESK, PHONE } from "./browser.ts";
import { readFileSync } from "node:fs";
const axe = readFileSync("node_modules/axe-core/axe.min.js", "utf8");
const NAMES = ["Base","Prepare","Order","Price","Days","Lay","Hand over"];
const L: any = {day:"Day",evening:"Evening",sun:"Bright sun"};
const b = await openBrowser(); const s = await serveApp();
for (const size of [PHONE, DESK]) {
  const c = await b.newContext({ viewport: size, bypassCSP: true });
  const { page } = await openApp(c, s.url);
  await page.addScriptTag({ content: axe });
  for (const g of ["day","evening","sun"]) {
    await page.locator(".top").getByText("Job", {exact:true}).click(); await page.locator("dialog").getByRole("radio",{name:L[g]}).check(); await page.locator("dialog").getByRole("button",{name:"Close"}).click();
    for (const st of NAMES) {
      await page.locator("nav.road").getByRole("button", { name: st, exact: true }).click();
      await planned(page); await page.waitForTimeout(250);
      for (const d of await page.locator(".panel details").all()) await d.evaluate((e: any) => { e.open = true; });
      if (st === "Lay") { const k = page.getByRole("button",{name:"The wall is not straight"}); if (await k.getAttribute("aria-expanded") !== "true") await k.click(); }
      const r = await page.evaluate(async (sun) => { const o: any = { runOnly: ["wcag2a","wcag2aa","wcag21a","wcag21aa","wcag22aa"] }; if (sun) o.rules = { "color-contrast-enhanced": { enabled: true } }; const x = await (window as any).axe.run(document, o); return x.violations.map((v: any) => [v.id, v.nodes.slice(0,3).map((n: any) => n.html.slice(0,140) + " | " + (n.any[0]?.message ?? ""))]); }, g === "sun");
      const small = await page.evaluate(() => [...document.querySelectorAll(".panel button, .panel summary, .panel input:not([type=checkbox]):not([type=radio]), .panel select")].map((e) => [e.getBoundingClientRect(), e.outerHTML.slice(0, 80)] as const).filter(([r]) => r.height > 0 && (r.height < 43.5 || r.width < 43.5)).map(([r, h]) => `${r.width.toFixed(0)}x${r.height.toFixed(0)} ${h}`).slice(0, 4));
      const wide = await page.evaluate(() => { const p = document.querySelector(".panel")!; return p.scrollWidth > p.clientWidth + 1 ? p.scrollWidth - p.clientWidth : 0; });
      if (r.length || small.length || wide) console.log(size.width, g, st, JSON.stringify(r, null, 1), small, "overflow", wide);
    }
  }
}
console.log("done"); await b.close(); await s.close();
