import PDFDocument from "pdfkit";
import { describe, expect, it } from "vitest";
import { readFonts } from "../../apps/cli/fonts.ts";
import { hasGlyph } from "../../papers/text.ts";
import { CAP_HEIGHT, WIDTHS } from "../../papers/widths.ts";
import { unpackFont } from "./unpack.ts";

interface Glyph {
  path: { toSVG(): string };
}
interface Face {
  capHeight: number;
  numGlyphs: number;
  hasGlyphForCodePoint(code: number): boolean;
  glyphForCodePoint(code: number): Glyph;
  layout(words: string, features: Record<string, boolean>): { positions: { xAdvance: number }[] };
}

/** A font as the PDF writer's own reader sees it. */
function faceOf(bytes: Uint8Array): Face {
  const doc = new PDFDocument({ autoFirstPage: false, font: bytes as unknown as string });
  return (doc as unknown as { _font: { font: Face } })._font.font;
}

const bytes = readFonts();
const faces = {
  regular: bytes.regular.map((one) => faceOf(unpackFont(one))),
  bold: bytes.bold.map((one) => faceOf(unpackFont(one))),
};

describe("the font of the papers", () => {
  it("has the widths of the table", () => {
    expect(faces.regular[0]!.capHeight).toBe(CAP_HEIGHT);
    let compared = 0;
    for (const entry of WIDTHS.flatMap((line) => line.split(" "))) {
      const [code, regular, bold] = entry.split(":").map((part) => Number.parseInt(part, 36)) as [
        number,
        number,
        number,
      ];
      for (const [weight, width] of [
        ["regular", regular],
        ["bold", bold],
      ] as const) {
        const face = faces[weight].find((one) => one.hasGlyphForCodePoint(code))!;
        const run = face.layout(String.fromCodePoint(code), { tnum: true });
        expect(
          run.positions.reduce((sum, position) => sum + position.xAdvance, 0),
          `${code} ${weight}`,
        ).toBe(width);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(600);
  });

  it("has figures of one width and tells 1 l I, 0 O apart by outline", () => {
    for (const face of [faces.regular[0]!, faces.bold[0]!]) {
      const widths = [..."0123456789"].map((figure) => face.layout(figure, { tnum: true }).positions[0]!.xAdvance);
      expect(new Set(widths).size).toBe(1);
      const outlines = [..."1lI0O"].map((character) => face.glyphForCodePoint(character.codePointAt(0)!).path.toSVG());
      expect(new Set(outlines).size).toBe(5);
    }
  });

  it("draws what the drawings write", () => {
    for (const character of "0123456789.,+\u2212\u2013\u2009\u00a4\u2026\u00b1\u00b2%/:\u00d8\u20ac\u0158\u0142\u0151")
      expect(hasGlyph(character), character).toBe(true);
  });

  it("unpacks to an OpenType file with the same glyphs", () => {
    for (const packed of [...bytes.regular, ...bytes.bold]) {
      const plain = unpackFont(packed);
      expect(plain.length).toBeGreaterThan(packed.length);
      const [a, b] = [faceOf(packed), faceOf(plain)];
      expect(b.numGlyphs).toBe(a.numGlyphs);
      expect(b.glyphForCodePoint(0x158).path.toSVG()).toBe(a.glyphForCodePoint(0x158).path.toSVG());
      expect(unpackFont(plain)).toBe(plain);
    }
  });
});
