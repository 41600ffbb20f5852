import { BAND_MM } from "./drawing/site.ts";
import { box, line, mark, stroke } from "./ink.ts";
import type { Sign } from "./margin.ts";
import type { Dash, Fill, Ink, Item, MarkSymbol, Tone } from "./sheet.ts";

/** Samples for the list of signs: each about 10 mm wide round its middle. */
export function lineSign(words: string, ink: Ink, dash: Dash = "solid", tone: Tone = "ink"): Sign {
  return { words, sample: (x, y) => [line("text", [x - 5, y], [x + 5, y], stroke(ink, dash, tone))] };
}

export function markSign(words: string, symbol: MarkSymbol, sizeMm = 2.6, tone: Tone = "ink"): Sign {
  return { words, sample: (x, y) => [mark("text", [x, y], symbol, sizeMm, 0, tone)] };
}

export function fillSign(words: string, fills: readonly Fill[], pen = stroke("thin")): Sign {
  return {
    words,
    sample: (x, y) => [
      ...fills.map((fill) => box("text", x - 5, y - 1.7, 10, 3.4, null, fill)),
      box("text", x - 5, y - 1.7, 10, 3.4, pen),
    ],
  };
}

export function bandSign(words: string, fill: Fill): Sign {
  return {
    words,
    sample: (x, y) => [
      line("text", [x - 5, y + BAND_MM / 2], [x + 5, y + BAND_MM / 2], stroke("thick")),
      box("text", x - 5, y - BAND_MM / 2, 10, BAND_MM, null, fill),
    ],
  };
}

export function sample(words: string, items: (x: number, y: number) => Item[]): Sign {
  return { words, sample: items };
}

/** What stands along a side, as the drawings hatch it. */
export const WALL: Fill = { hatchDeg: 45, spacingMm: 1.1, tone: "ink" };
export const KERB: Fill = { hatchDeg: 135, spacingMm: 0.7, tone: "grey" };
