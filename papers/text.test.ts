import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { printable, shorten, textWidthMm, wrapText } from "./text.ts";

const anyText = fc.string({ unit: "binary", maxLength: 80 });

describe("text on paper", () => {
  it("is printable whatever it was, and stays so", () => {
    fc.assert(
      fc.property(anyText, (words) => {
        const once = printable(words);
        expect(printable(once)).toBe(once);
        // Nothing below a space, nothing that turns the reading direction.
        for (const character of once)
          expect(character >= " " && !(character >= "\u202a" && character <= "\u202e")).toBe(true);
      }),
      { seed: 11, numRuns: 300 },
    );
  });

  it("shortens and wraps to the width given", () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 8, max: 60 }), fc.boolean(), (words, width, bold) => {
        expect(textWidthMm(shorten(words, width, 2.5, bold), 2.5, bold)).toBeLessThanOrEqual(width + 1e-9);
        const lines = wrapText(words, width, 2.5, bold, 4);
        expect(lines.length).toBeLessThanOrEqual(4);
        for (const line of lines) expect(textWidthMm(line, 2.5, bold)).toBeLessThanOrEqual(width + 1e-9);
      }),
      { seed: 12, numRuns: 300 },
    );
  });

  it("loses no word when there is room, and says so when there is none", () => {
    const words = "Row 7 ends in a 38 mm strip that no clip can hold.";
    expect(wrapText(words, 40, 2.5).join(" ")).toBe(words);
    expect(wrapText(words, 20, 2.5, false, 2)[1]).toMatch(/\u2026$/);
    expect(shorten(words, 20, 2.5)).toMatch(/\u2026$/);
    expect(shorten(words, 200, 2.5)).toBe(words);
  });
});
