import { describe, expect, it } from "vitest";
import { readFonts } from "../apps/cli/fonts.ts";
import { text } from "../papers/ink.ts";
import type { Sheet } from "../papers/sheet.ts";
import { HOSTILE, samplePapers } from "../papers/testing/papers.ts";
import { writeSvg } from "./svg.ts";

/** Reads XML strictly enough to say that it is well-formed; gives the texts of its elements. */
function wellFormed(xml: string): string[] {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters XML 1.0 forbids.
  expect(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/.test(xml)).toBe(false);
  expect(/\p{Surrogate}/u.test(xml)).toBe(false);
  const body = xml.replace(/^<\?xml [^?]*\?>\n/, "");
  const open: string[] = [];
  const texts: string[] = [];
  let at = 0;
  for (const match of body.matchAll(/<(\/?)([a-zA-Z]+)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>/g)) {
    const between = body.slice(at, match.index);
    expect(between).not.toMatch(/[<>]/);
    expect(between.replace(/&(amp|lt|gt|quot);/g, "")).not.toContain("&");
    expect(match[3]!.replace(/&(amp|lt|gt|quot);/g, "")).not.toContain("&");
    if (match[1]) {
      expect(open.pop()).toBe(match[2]);
      if (match[2] === "text") texts.push(between);
    } else if (!match[4]) open.push(match[2]!);
    at = match.index + match[0].length;
  }
  expect(body.slice(at).trim()).toBe("");
  expect(open).toEqual([]);
  return texts;
}

describe("writeSvg", () => {
  it("is well-formed, in paper millimetres, the same each time, with and without fonts", () => {
    const fonts = readFonts();
    for (const paper of Object.values(samplePapers())) {
      for (const sheet of paper.sheets) {
        const svg = writeSvg(sheet);
        expect(svg).toContain(
          `width="${sheet.widthMm}mm" height="${sheet.heightMm}mm" viewBox="0 0 ${sheet.widthMm} ${sheet.heightMm}"`,
        );
        expect(writeSvg(sheet)).toBe(svg);
        expect(wellFormed(svg).length).toBeGreaterThan(30);
        expect(svg).not.toMatch(/NaN|Infinity|\de-\d/);
        expect(wellFormed(writeSvg(sheet, fonts)).length).toBeGreaterThan(30);
      }
    }
  });

  it("embeds the font's bytes as they are", () => {
    const fonts = readFonts();
    const svg = writeSvg({ name: "x", title: "x", widthMm: 10, heightMm: 10, views: [], items: [] }, fonts);
    const packed = [...svg.matchAll(/base64,([A-Za-z0-9+/=]+)\)/g)].map((match) => Buffer.from(match[1]!, "base64"));
    expect(packed.map((one) => one.length)).toEqual([...fonts.regular, ...fonts.bold].map((one) => one.length));
    expect(Buffer.compare(packed[0]!, Buffer.from(fonts.regular[0]!))).toBe(0);
  });

  it.each(HOSTILE)("holds %j as text", (words) => {
    const sheet: Sheet = {
      name: "x",
      title: words,
      widthMm: 100,
      heightMm: 100,
      views: [],
      items: [text([10, 10], words)],
    };
    const [said] = wellFormed(writeSvg(sheet));
    expect(said).toBeDefined();
    expect(said).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/);
    expect([...said!.replace(/&(amp|lt|gt|quot);/g, "x")].length).toBe([...words].length);
  });
});
