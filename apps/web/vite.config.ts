import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { offlinePlugin } from "./offline/plugin.ts";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The browser app: built into dist/web, every path relative, so that it can stand in any folder of a server. */
export default defineConfig({
  root: here("."),
  base: "./",
  publicDir: here("./offline/public"),
  plugins: [offlinePlugin(here("./offline/worker.ts"), here("./offline/public"))],
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    // Several may build at once, each into its own folder.
    outDir: process.env.ROWLINE_WEB ?? here("../../dist/web"),
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  worker: { format: "es" },
});
