import { type Look, lookAt, onPaper } from "./drawing/look.ts";
import { boundsOf } from "./drawing/plane.ts";
import { extentOf } from "./extent.ts";
import type { Item, Pt, View } from "./sheet.ts";

/** ISO 5455 and its tens, as far as a terrace goes (from memory; the list of the preferred scales 1:1 to 1:500 is second-hand). */
export const SCALES = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000];

export interface Area {
  x: number;
  y: number;
  width: number;
  height: number;
}
/** Draws the site for a look; may be called several times, each with a fresh look. */
export type Draw = (look: Look) => Item[];

export interface Fitted {
  view: View;
  scale: number;
}

/**
 * The largest standard scale at which a drawing with its figures fits an area, in the middle of it; turned by 90
 * degrees only where that gives a larger scale. `site` are points the drawing surely covers, to skip hopeless scales.
 */
export function fitView(draw: Draw, site: readonly Pt[], area: Area, leastScale = 1): Fitted {
  for (const scale of SCALES) {
    if (scale < leastScale) continue;
    for (const turnDeg of [0, 90]) {
      const fitted = fitAt(draw, site, area, scale, turnDeg);
      if (fitted) return fitted;
    }
  }
  return fitAt(draw, site, area, SCALES[SCALES.length - 1]!, 0, true)!;
}

/** Every drawing takes at least this much paper beyond the site itself: bands, a line of figures on two sides. */
const LEAST_MM = 12;

/** The drawing at one scale, or null where it does not fit. */
export function fitAt(
  draw: Draw,
  site: readonly Pt[],
  area: Area,
  scale: number,
  turnDeg: number,
  anyway = false,
): Fitted | null {
  const look = lookAt(scale, turnDeg);
  const bare = boundsOf(site.map((point) => onPaper(look, point)));
  if (!anyway && (bare.x1 - bare.x0 + LEAST_MM > area.width || bare.y1 - bare.y0 + LEAST_MM > area.height)) return null;
  const items = draw(look);
  const box = extentOf(items, look);
  const [width, height] = [box.x1 - box.x0, box.y1 - box.y0];
  if (!anyway && (width > area.width || height > area.height)) return null;
  // Site point at the area's lower left corner: turned back from paper.
  const corner: Pt = [box.x0 - (area.width - width) / 2, box.y0 - (area.height - height) / 2];
  const back = { ...look, scale: 1 / scale, turnDeg: -turnDeg };
  return { scale, view: { ...area, scale, at: onPaper(back, corner), turnDeg, items } };
}
