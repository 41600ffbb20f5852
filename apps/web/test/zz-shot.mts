import { openApp, openBrowser, serveApp, DESK, PHONE, planned } from "./browser.ts";
const [b, s] = await Promise.all([openBrowser(), serveApp()]);
const want = process.argv.slice(2);
for (const [name, viewport, touch] of [["desk", DESK, false], ["phone", PHONE, true]] as const) {
  if (want.length && !want.includes(name)) continue;
  const c = await b.newContext({ viewport, hasTouch: touch });
  const { page, faults } = await openApp(c, s.url);
  await page.waitForTimeout(300);
  await page.screenshot({ path: `/tmp/shot-${name}-setout.png` });
  const box = (await page.locator("canvas").boundingBox())!;
  await page.mouse.click(box.x + box.width * 0.6, box.y + box.height * 0.55);
  await page.waitForTimeout(200);
  await page.screenshot({ path: `/tmp/shot-${name}-piece.png` });
  for (const st of ["Fix", "Cut"]) {
    await page.getByRole("navigation").getByRole("button", { name: st, exact: true }).click();
    await planned(page); await page.waitForTimeout(300);
    await page.screenshot({ path: `/tmp/shot-${name}-${st}.png` });
  }
  console.log(name, faults);
  await c.close();
}
await b.close(); await s.close();
