/** Damages a text as files are damaged: cut off, signs changed, keys twice, marks before it, brackets without end. */
import type { Chance } from "../fixtures/random.ts";

export function spoilText(text: string, c: Chance): string {
  const at = c.int(0, text.length);
  switch (c.int(0, 9)) {
    case 0:
      return text.slice(0, at);
    case 1:
      return text.slice(0, at) + c.pick(SIGNS) + text.slice(at);
    case 2:
      return text.slice(0, at) + text.slice(Math.min(text.length, at + c.int(1, 20)));
    case 3:
      return `\ufeff${text}`;
    case 4:
      return c.pick([
        "",
        " ",
        "\n",
        "null",
        "[]",
        "{}",
        "0",
        '"x"',
        "\ufeff",
        "\u0000",
        "{",
        "[",
        "[[[[",
        '{"format":"rowline/job@1"}',
      ]);
    case 5:
      return "[".repeat(c.int(10, 5000)) + text;
    case 6:
      return twice(text, c);
    case 7:
      return text + c.pick(SIGNS) + text;
    case 8:
      return text.replaceAll(":", c.pick([":", " :\n", ":\t"])).replaceAll(",", ",\r\n");
    default:
      return text.replace(
        /"rowline\/job@1"/,
        c.pick(['"rowline/job@2"', '"rowline/plan@1"', '"rowline/job@01"', "1", '"rowline/job@999999999999"']),
      );
  }
}

/** One key of the text a second time. */
function twice(text: string, c: Chance): string {
  const keys = [...text.matchAll(/"([A-Za-z]+)":/g)];
  if (keys.length === 0) return text;
  const key = c.pick(keys);
  const value = c.pick(["1", "null", '"x"', "[]", "{}"]);
  return `${text.slice(0, key.index)}"${key[1]}":${value},${text.slice(key.index)}`;
}

const SIGNS = [
  "{",
  "}",
  "[",
  "]",
  ",",
  ":",
  '"',
  "\\",
  "\u0000",
  "\ud800",
  "\u202e",
  "/*",
  "//",
  "-",
  "e",
  "0",
  "\n",
  "\u2028",
  "null",
  "true",
];
