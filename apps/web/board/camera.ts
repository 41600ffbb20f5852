import type { Pt } from "../../../papers/sheet.ts";

/** What the board looks at: the site point in its middle, and 1 : scale of a paper millimetre on the screen. */
export interface Camera {
  at: Pt;
  scale: number;
}
export interface Bounds {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}
/** Screen pixels (CSS) of a paper millimetre. */
export const PX_PER_MM = 96 / 25.4;
/** Room round the site for figures, paper mm. */
const MARGIN_MM = 20;

/** The camera that shows all of `bounds` on a board of this size, CSS px. */
export function fitCamera(bounds: Bounds, width: number, height: number): Camera {
  const room = (px: number) => Math.max(20, px / PX_PER_MM - 2 * MARGIN_MM);
  const scale = Math.max((bounds.x1 - bounds.x0) / room(width), (bounds.y1 - bounds.y0) / room(height), 1);
  return { at: [(bounds.x0 + bounds.x1) / 2, (bounds.y0 + bounds.y1) / 2], scale };
}
