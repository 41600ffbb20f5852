import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, expect, test } from "vitest";
import { staticServer } from "../../cli/static.ts";
import { openBrowser } from "./browser.ts";

const folder = mkdtempSync(join(tmpdir(), "rowline-rooms-"));
let browser: Browser;
let server: ReturnType<typeof staticServer>;
beforeAll(async () => {
  const entry = fileURLToPath(new URL("./rooms.ts", import.meta.url));
  await build({
    configFile: false,
    logLevel: "warn",
    build: {
      outDir: folder,
      emptyOutDir: true,
      minify: false,
      lib: { entry, formats: ["es"], fileName: () => "rooms.js" },
    },
  });
  writeFileSync(join(folder, "index.html"), "<!doctype html><title>rooms</title>");
  server = staticServer(folder);
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  browser = await openBrowser();
});
afterAll(async () => {
  await browser.close();
  server.closeAllConnections();
  server.close();
  rmSync(folder, { recursive: true });
});

async function inPage<T>(call: string): Promise<T> {
  const page = await (await browser.newContext()).newPage();
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  return page.evaluate(`import("/rooms.js").then((rooms) => rooms.${call})`) as Promise<T>;
}

test("the browser's database: random sequences of edits, undo, redo and reopening end byte-identical to whole copies", async () => {
  const { sequences, differing } = await inPage<{ sequences: number; differing: string[] }>("randomSequences(60, 30)");
  expect(differing).toEqual([]);
  expect(sequences).toBe(60);
});

test("the browser's database: torn and foreign records stay where they are and hurt nothing", async () => {
  expect(await inPage("strangers()")).toEqual({ skipped: 3, title: "Front yard", left: 3 });
});

test("the browser's database: two connections writing at once lose nothing and agree", async () => {
  expect(await inPage("together(40)")).toEqual({ kept: 81, agree: true });
});
