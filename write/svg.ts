import type { Sheet } from "../papers/sheet.ts";
import { STAND_IN, textWidthMm } from "../papers/text.ts";
import { CAP_HEIGHT } from "../papers/widths.ts";
import type { FontBytes } from "./font/files.ts";
import { type Op, paint } from "./paint.ts";

/**
 * One sheet as SVG, size and coordinates in paper mm. Text stays text; with `fonts` its faces are embedded, so that the
 * drawing looks the same everywhere; without, the reader's own sans-serif stands in, set to the width of ours so that
 * nothing runs out of its box. Same sheet, same bytes.
 */
export function writeSvg(sheet: Sheet, fonts?: FontBytes): string {
  const out: string[] = [];
  const size = `width="${n(sheet.widthMm)}mm" height="${n(sheet.heightMm)}mm" viewBox="0 0 ${n(sheet.widthMm)} ${n(sheet.heightMm)}"`;
  out.push(`<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" ${size}>`);
  out.push(`<title>${xml(sheet.title)}</title>`);
  out.push(
    `<style>${fonts ? faces(fonts) : ""}text{font-family:"Rowline Sans",sans-serif;font-variant-numeric:tabular-nums;white-space:pre}path{stroke-linejoin:round}</style>`,
  );
  out.push(`<rect width="100%" height="100%" fill="#ffffff"/>`);
  let clips = 0;
  for (const op of paint(sheet)) {
    if (op.op === "clip") {
      clips++;
      const rect = `<rect x="${n(op.x)}" y="${n(sheet.heightMm - op.y - op.height)}" width="${n(op.width)}" height="${n(op.height)}"/>`;
      out.push(`<clipPath id="view${clips}">${rect}</clipPath><g clip-path="url(#view${clips})">`);
    } else if (op.op === "unclip") out.push("</g>");
    else if (op.op === "path") out.push(pathOf(op, sheet.heightMm));
    else out.push(textOf(op, sheet.heightMm, fonts === undefined));
  }
  out.push("</svg>\n");
  return out.join("\n");
}

function pathOf(op: Op & { op: "path" }, height: number): string {
  const d = op.parts
    .map(
      (part) =>
        part.points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${n(x)} ${n(height - y)}`).join("") +
        (part.closed ? "Z" : ""),
    )
    .join("");
  const fill = op.fill ? `fill="${op.fill}" fill-rule="evenodd"` : `fill="none"`;
  const dash = op.pen && op.pen.dashMm.length > 0 ? ` stroke-dasharray="${op.pen.dashMm.map(n).join(" ")}"` : "";
  const pen = op.pen ? ` stroke="${op.pen.colour}" stroke-width="${n(op.pen.widthMm)}"${dash}` : "";
  return `<path class="${op.layer}" ${fill}${pen} d="${d}"/>`;
}

function textOf(op: Op & { op: "text" }, height: number, standsIn: boolean): string {
  const [x, y] = [n(op.at[0]), n(height - op.at[1])];
  const anchor = op.align === "left" ? "" : ` text-anchor="${op.align === "right" ? "end" : "middle"}"`;
  const turn = op.turnDeg === 0 ? "" : ` transform="rotate(${n(-op.turnDeg)} ${x} ${y})"`;
  const bold = op.bold ? ` font-weight="700"` : "";
  const fontSize = n((op.heightMm * 1000) / CAP_HEIGHT);
  const width = n(textWidthMm(op.text, op.heightMm, op.bold));
  const fitted = standsIn && op.text.length > 1 ? ` textLength="${width}" lengthAdjust="spacingAndGlyphs"` : "";
  return `<text class="${op.layer}" x="${x}" y="${y}" font-size="${fontSize}"${bold}${anchor}${fitted}${turn} fill="${op.colour}" direction="ltr" unicode-bidi="isolate">${xml(op.text)}</text>`;
}

function faces(fonts: FontBytes): string {
  const face = (bytes: Uint8Array, weight: number, range: string) =>
    `@font-face{font-family:"Rowline Sans";font-weight:${weight};unicode-range:${range};src:url(data:font/woff;base64,${base64(bytes)}) format("woff")}`;
  return [
    ...fonts.regular.map((bytes, i) => face(bytes, 400, RANGES[i]!)),
    ...fonts.bold.map((bytes, i) => face(bytes, 700, RANGES[i]!)),
  ].join("");
}
/** The first face holds the western letters, the second the rest of the Latin ones. */
const RANGES = [
  "U+0-FF,U+131,U+152-153,U+2C6,U+2DA,U+2DC,U+2000-206F,U+20AC,U+2212",
  "U+100-2AF,U+2C7,U+2C9,U+2D9,U+2DB,U+1E00-1EFF,U+20AD-20C0,U+2113",
];

/** Escaped for XML; what XML may not hold, and what turns the reading direction, becomes the stand-in. */
function xml(text: string): string {
  let out = "";
  for (const character of text) {
    const code = character.codePointAt(0)!;
    if (character === "&") out += "&amp;";
    else if (character === "<") out += "&lt;";
    else if (character === ">") out += "&gt;";
    else if (character === '"') out += "&quot;";
    else if (
      code < 0x20 ||
      (code >= 0x7f && code < 0xa0) ||
      (code >= 0xd800 && code <= 0xdfff) ||
      (code & 0xfffe) === 0xfffe ||
      turns(code)
    )
      out += STAND_IN;
    else out += character;
  }
  return out;
}

function turns(code: number): boolean {
  return (
    (code >= 0x202a && code <= 0x202e) ||
    (code >= 0x2066 && code <= 0x2069) ||
    code === 0x200e ||
    code === 0x200f ||
    code === 0x61c ||
    code === 0x2028 ||
    code === 0x2029
  );
}

function n(value: number): string {
  return String(Math.round(value * 1000) / 1000 + 0);
}

const SIXTY_FOUR = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
function base64(bytes: Uint8Array): string {
  const out: string[] = [];
  for (let i = 0; i < bytes.length; i += 3) {
    const [a, b, c] = [bytes[i]!, bytes[i + 1], bytes[i + 2]];
    const word = (a << 16) | ((b ?? 0) << 8) | (c ?? 0);
    out.push(
      SIXTY_FOUR[word >> 18]! +
        SIXTY_FOUR[(word >> 12) & 63] +
        (b === undefined ? "=" : SIXTY_FOUR[(word >> 6) & 63]) +
        (c === undefined ? "=" : SIXTY_FOUR[word & 63]),
    );
  }
  return out.join("");
}
