/** What browser tests stand on: the built app served on a free port, and the browser that comes with the packages. */
import { existsSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { fileURLToPath } from "node:url";
import { type Browser, type BrowserContext, chromium, type LaunchOptions, type Page } from "playwright-core";
import { build } from "vite";
import { staticServer } from "../../cli/static.ts";

// Tells the package to bring its own shared libraries; must stand before it is loaded.
process.env.AWS_EXECUTION_ENV ??= "AWS_Lambda_nodejs20.x";

export const DESK = { width: 1440, height: 900 };
export const PHONE = { width: 390, height: 844 };

/** The folder of the built app: ROWLINE_WEB or dist/web; built when it is not there. */
export async function webFolder(): Promise<string> {
  const folder = process.env.ROWLINE_WEB ?? fileURLToPath(new URL("../../../dist/web", import.meta.url));
  if (!existsSync(`${folder}/index.html`))
    await build({ configFile: fileURLToPath(new URL("../vite.config.ts", import.meta.url)), logLevel: "warn" });
  return folder;
}

export interface Served {
  url: string;
  port: number;
  /** Paths asked for, in order. */
  asked: string[];
  close(): Promise<void>;
}
/** The app on a free port of this machine; `port` to come back on the same one, `folder` for another build. */
export async function serveApp(port = 0, folder?: string): Promise<Served> {
  const server = staticServer(folder ?? (await webFolder()));
  const asked: string[] = [];
  server.on("request", (request) => asked.push(request.url ?? ""));
  await new Promise<void>((done) => server.listen(port, "127.0.0.1", done));
  const { port: mine } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${mine}/`,
    port: mine,
    asked,
    close: () =>
      new Promise((done) => {
        server.closeAllConnections();
        server.close(() => done());
      }),
  };
}

/** Where the browser is and how it is started. */
export async function browserOptions(): Promise<LaunchOptions> {
  const { default: packed } = await import("@sparticuz/chromium");
  return {
    executablePath: await packed.executablePath(),
    // Of the package's own list only what a container needs: the page is judged with all its guards up.
    args: ["--no-sandbox", "--font-render-hinting=none", "--use-gl=angle", "--use-angle=swiftshader", "--disable-gpu"],
    headless: true,
  };
}

export async function openBrowser(): Promise<Browser> {
  return chromium.launch(await browserOptions());
}

/** Opens the app and waits until the first plan is drawn. What the page throws is kept in `faults`. */
export async function openApp(context: BrowserContext, url: string): Promise<{ page: Page; faults: string[] }> {
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("pageerror", (fault) => faults.push(fault.stack ?? fault.message));
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(message.text());
  });
  await page.goto(url);
  await planned(page);
  return { page, faults };
}

/** Waits until everything entered is kept, planned and drawn. */
export async function planned(page: Page): Promise<void> {
  await page.locator(".app[data-settled=true]").waitFor();
}
