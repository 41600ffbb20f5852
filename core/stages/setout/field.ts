import type { Region, Ring } from "../../geometry/frame.ts";
import { offsetRing } from "../../geometry/offset.ts";
import { intersectRegions, regionsOf } from "../../geometry/region.ts";
import { boxOf, distanceToRing, regionArea, ringHolds } from "../../geometry/ring.ts";
import { CHORD_UM, type TurnedSite } from "./turn.ts";

export interface Field {
  parts: Region[];
  areaUm2: number;
  /** Each cut-out grown by its gap, counter-clockwise rings (a cut-out's gap can close a slot and leave several). */
  grown: { cutout: number; rings: Ring[] }[];
}

/** Chords of one arc may stand out by this much and no more, um. */
const OUTSIDE_UM = 2 * CHORD_UM;

/** Above this many steps only what leaves the outline's box is looked for. */
const MOST_STEPS = 1e6;

/** The outline moved inward by each side's gap, less every cut-out grown by its own. */
export function fieldOf(turned: TurnedSite): Field {
  const inward = offsetRing(turned.outline, CHORD_UM);
  const raw = turned.cutouts.map((edges) => [...offsetRing(edges, CHORD_UM)].reverse());
  const parts = withinOutline(regionsOf([inward], raw), turned);
  let areaUm2 = 0;
  for (const part of parts) areaUm2 += regionArea(part);
  const grown = raw.map((ring, cutout) => ({ cutout, rings: regionsOf([ring], []).map((r) => r.outer) }));
  return { parts, areaUm2, grown };
}

/**
 * A field never leaves its outline. Where an arc meets its neighbour nearly in line and their gaps differ, the moved lines
 * can meet far outside it; what lies there is cut off. Only such fields are cut, so that all others stay as they are.
 */
function withinOutline(parts: Region[], turned: TurnedSite): Region[] {
  if (turned.outline.every((edge) => edge.bulge === 0)) return parts;
  const outline = turned.site.outline;
  const box = boxOf(outline);
  const corners = parts.reduce((sum, part) => sum + part.outer.length, 0);
  const beyond = ([u, v]: Ring[number]): boolean =>
    u < box.u0 - OUTSIDE_UM || u > box.u1 + OUTSIDE_UM || v < box.v0 - OUTSIDE_UM || v > box.v1 + OUTSIDE_UM;
  const leaves = (p: Ring[number]): boolean =>
    beyond(p) ||
    (corners * outline.length < MOST_STEPS &&
      !ringHolds(outline, p[0], p[1]) &&
      distanceToRing(outline, p[0], p[1]) > OUTSIDE_UM);
  return parts.some((part) => part.outer.some(leaves)) ? intersectRegions(parts, outline) : parts;
}
