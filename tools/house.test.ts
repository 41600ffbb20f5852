/** Laws of the house that a type-checker does not know: same bytes everywhere, nothing that ties us to one machine. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ENGINE } from "../core/plan/engine.ts";

const ROOT = new URL("..", import.meta.url).pathname;
const PURE = ["core", "papers", "words", "write", "desk"];
const BARRED: [RegExp, string][] = [
  [
    /\bMath\.(sin|cos|tan|asin|acos|atan|atan2|exp|expm1|log|log2|log10|log1p|pow|hypot|cbrt|sinh|cosh|tanh)\b/,
    "platform mathematics differ in the last bit between engines",
  ],
  [/\bMath\.random\b/, "no chance"],
  [/\bDate\b(?!:)\s*[.(]|new Date\b|\bperformance\.now\b/, "no clock"],
  [/\bIntl\b|\.toLocale|localeCompare/, "no locale"],
  [/\bconsole\./, "no talk: stdout belongs to the answer"],
  [/\bprocess\.|\brequire\(|\bBuffer\b/, "no Node"],
];

function sources(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts") && !entry.name.endsWith(".test.ts"))
    .map((entry) => join(entry.parentPath, entry.name));
}

/** Comments may speak of what the code may not do. */
function code(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/(^|\s)\/\/.*$/gm, "");
}

test("pure rooms use no clock, no chance, no locale, no platform mathematics", () => {
  const breaches: string[] = [];
  for (const file of PURE.flatMap(sources)) {
    // PDF metadata wants a Date object; it is made from fixed figures there.
    if (file.endsWith("write/pdf.ts")) continue;
    const text = code(readFileSync(file, "utf8"));
    for (const [pattern, why] of BARRED)
      if (pattern.test(text)) breaches.push(`${file.slice(ROOT.length)}: ${why} (${pattern.exec(text)?.[0]})`);
  }
  expect(breaches).toEqual([]);
});

test("the PDF writer's only clock is a fixed one", () => {
  const text = code(readFileSync(join(ROOT, "write/pdf.ts"), "utf8"));
  expect(text).not.toMatch(/new Date\(\)|Date\.now/);
});

test("the engine's version is the package's", () => {
  expect(JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")).version).toBe(ENGINE);
});

test("no test is switched off or runs alone", () => {
  const off: string[] = [];
  for (const folder of [...PURE, "apps", "proofs", "tools", "fixtures"])
    for (const entry of readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true }))
      if (entry.isFile() && entry.name.endsWith(".test.ts")) {
        const text = readFileSync(join(entry.parentPath, entry.name), "utf8");
        if (/\b(it|test|describe)\.(only|skip|todo)\(/.test(text)) off.push(entry.name);
      }
  expect(off).toEqual([]);
});
