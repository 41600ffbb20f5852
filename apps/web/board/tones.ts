import type { Tone } from "../../../papers/sheet.ts";

/** The drawing's colours on the chosen ground, read from the page's style once for each ground. */
export interface Tones extends Record<Tone, string> {
  /** The sheet under everything. */
  sheet: string;
  /** A board's face, and what shows between boards. */
  board: string;
  gap: string;
  /** What is picked. */
  picked: string;
}

export function tonesOf(element: Element): Tones {
  const style = getComputedStyle(element);
  const tone = (name: string) => style.getPropertyValue(name).trim();
  return {
    ink: tone("--draw-ink"),
    accent: tone("--draw-accent"),
    grey: tone("--draw-grey"),
    sheet: tone("--sheet"),
    board: tone("--draw-board"),
    gap: tone("--draw-gap"),
    picked: tone("--draw-picked"),
  };
}
