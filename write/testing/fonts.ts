import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { FONT_FILES, type FontBytes } from "../font/files.ts";

/** The font from the installed package, for tests. */
export function readFonts(): FontBytes {
  const { resolve } = createRequire(import.meta.url);
  const read = (paths: readonly string[]) => paths.map((path) => new Uint8Array(readFileSync(resolve(path))));
  return { regular: read(FONT_FILES.regular), bold: read(FONT_FILES.bold) };
}
