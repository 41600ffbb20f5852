import type { Tone } from "../../../papers/sheet.ts";

/** The drawing's colours on the chosen ground, read from the page's style once for each ground. */
export interface Tones extends Record<Tone, string> {
  /** The sheet under everything. */
  sheet: string;
  /** A board's face, and what shows between boards. */
  board: string;
  gap: string;
  /** Figures in grey that stand on a board: as readable there as grey is on the sheet. */
  onBoard: string;
  /** What is picked. */
  picked: string;
  /** A flat colour of the drawing on this ground: "--fill-e08a3c" says what #e08a3c is here. */
  fill(colour: string): string;
}

export function tonesOf(element: Element): Tones {
  const style = getComputedStyle(element);
  const tone = (name: string) => style.getPropertyValue(name).trim();
  const fills = new Map([
    ["#ffffff", tone("--sheet")],
    ["#1a1a1a", tone("--draw-ink")],
  ]);
  return {
    fill(colour) {
      let here = fills.get(colour);
      if (here === undefined) {
        here = tone(`--fill-${colour.slice(1)}`) || colour;
        fills.set(colour, here);
      }
      return here;
    },
    ink: tone("--draw-ink"),
    accent: tone("--draw-accent"),
    grey: tone("--draw-grey"),
    sheet: tone("--sheet"),
    board: tone("--draw-board"),
    gap: tone("--draw-gap"),
    onBoard: tone("--draw-on-board"),
    picked: tone("--draw-picked"),
  };
}
