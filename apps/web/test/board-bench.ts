import { mkdtemp, rm } from "node:fs/promises";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";
import { staticServer } from "../../cli/static.ts";
import type { Measured } from "./board-page.ts";
import { openBrowser } from "./browser.ts";

/** Builds the bench page, opens it in the browser and measures `rounds` frames a look. */
export async function measureBoard(rounds: number): Promise<Measured[]> {
  const folder = await mkdtemp(join(tmpdir(), "board-"));
  const here = fileURLToPath(new URL(".", import.meta.url));
  await build({
    root: here,
    base: "./",
    configFile: false,
    logLevel: "error",
    build: {
      outDir: folder,
      emptyOutDir: true,
      target: "es2022",
      rolldownOptions: { input: join(here, "board-page.html") },
    },
  });
  const server = staticServer(folder);
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const browser = await openBrowser();
  try {
    const page = await browser.newPage();
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/board-page.html`);
    await page.waitForFunction("window.measure");
    return (await page.evaluate(`window.measure(${rounds})`)) as Measured[];
  } finally {
    await browser.close();
    server.closeAllConnections();
    server.close();
    await rm(folder, { recursive: true });
  }
}
