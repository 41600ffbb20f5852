import { CAP_HEIGHT, WIDTHS } from "./widths.ts";

/** Stands for a character the font lacks: visible, never silently dropped. */
export const STAND_IN = "\u00a4";
export const ELLIPSIS = "\u2026";

/** True where the font of the papers draws this character. */
export function hasGlyph(character: string): boolean {
  return TABLE.has(character.codePointAt(0)!);
}

/**
 * Text as it can be printed: one line, every character one the font draws. Characters it lacks, control characters and
 * the invisible ones that turn the reading direction become a stand-in; white space becomes a plain space.
 */
export function printable(text: string): string {
  let out = "";
  for (const character of text) {
    if (isSpace(character)) out += character === "\u202f" ? "\u2009" : " ";
    else if (isJoiner(character)) continue;
    else out += hasGlyph(character) ? character : STAND_IN;
  }
  return out;
}

/** Width on paper, mm, of a line whose capitals are `heightMm` high. */
export function textWidthMm(text: string, heightMm: number, bold = false): number {
  let sum = 0;
  for (const character of printable(text)) {
    const widths = TABLE.get(character.codePointAt(0)!);
    sum += widths ? widths[bold ? 1 : 0] : CAP_HEIGHT;
  }
  return (sum * heightMm) / CAP_HEIGHT;
}

/** The text, or as much of it as fits with an ellipsis at its end. */
export function shorten(text: string, widthMm: number, heightMm: number, bold = false): string {
  const whole = printable(text);
  if (textWidthMm(whole, heightMm, bold) <= widthMm) return whole;
  const room = widthMm - textWidthMm(ELLIPSIS, heightMm, bold);
  let out = "";
  let used = 0;
  for (const character of whole) {
    used += textWidthMm(character, heightMm, bold);
    if (used > room) break;
    out += character;
  }
  return `${out.trimEnd()}${ELLIPSIS}`;
}

/**
 * Lines no wider than `widthMm`, broken at spaces, inside a word only where the word alone is too wide.
 * Beyond `maxLines` the last line ends in an ellipsis. Line feeds in the text break a line.
 */
export function wrapText(text: string, widthMm: number, heightMm: number, bold = false, maxLines = 1000): string[] {
  const lines: string[] = [];
  for (const paragraph of text.split("\n")) {
    let line = "";
    for (const word of printable(paragraph)
      .split(" ")
      .flatMap((w) => pieces(w, widthMm, heightMm, bold))) {
      const longer = line === "" ? word : `${line} ${word}`;
      if (line !== "" && textWidthMm(longer, heightMm, bold) > widthMm) {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    lines.push(line);
  }
  if (lines.length <= maxLines) return lines;
  const last = lines.slice(maxLines - 1, maxLines + 1).join(" ");
  const cut = shorten(`${last} ${lines[maxLines] ?? ""}`, widthMm, heightMm, bold);
  return [...lines.slice(0, maxLines - 1), cut.endsWith(ELLIPSIS) ? cut : `${cut}${ELLIPSIS}`];
}

/** A word that is too wide for a line, cut into parts that fit. */
function pieces(word: string, widthMm: number, heightMm: number, bold: boolean): string[] {
  if (textWidthMm(word, heightMm, bold) <= widthMm) return [word];
  const out: string[] = [];
  let part = "";
  let used = 0;
  for (const character of word) {
    const width = textWidthMm(character, heightMm, bold);
    if (part !== "" && used + width > widthMm) {
      out.push(part);
      part = "";
      used = 0;
    }
    part += character;
    used += width;
  }
  if (part !== "") out.push(part);
  return out;
}

function isSpace(character: string): boolean {
  return /[\t\n\r\u00a0\u2000-\u2008\u200a\u202f\u205f\u3000]/.test(character);
}

/** Soft hyphens, variation selectors and zero-width joiners: nothing to see, nothing lost. */
function isJoiner(character: string): boolean {
  const code = character.codePointAt(0)!;
  return code === 0xad || code === 0x200c || code === 0x200d || (code >= 0xfe00 && code <= 0xfe0f);
}

const TABLE: ReadonlyMap<number, readonly [regular: number, bold: number]> = new Map(
  WIDTHS.flatMap((line) => line.split(" ")).map((entry) => {
    const [code, regular, bold] = entry.split(":").map((part) => Number.parseInt(part, 36));
    return [code!, [regular!, bold!] as const];
  }),
);
