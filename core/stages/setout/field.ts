import type { Region, Ring } from "../../geometry/frame.ts";
import { offsetRing } from "../../geometry/offset.ts";
import { regionsOf } from "../../geometry/region.ts";
import { regionArea } from "../../geometry/ring.ts";
import { CHORD_UM, type TurnedSite } from "./turn.ts";

export interface Field {
  parts: Region[];
  areaUm2: number;
  /** Each cut-out grown by its gap, counter-clockwise rings (a cut-out's gap can close a slot and leave several). */
  grown: { cutout: number; rings: Ring[] }[];
}

/** The outline moved inward by each side's gap, less every cut-out grown by its own. */
export function fieldOf(turned: TurnedSite): Field {
  const inward = offsetRing(turned.outline, CHORD_UM);
  const raw = turned.cutouts.map((edges) => [...offsetRing(edges, CHORD_UM)].reverse());
  const parts = regionsOf([inward], raw);
  let areaUm2 = 0;
  for (const part of parts) areaUm2 += regionArea(part);
  const grown = raw.map((ring, cutout) => ({ cutout, rings: regionsOf([ring], []).map((r) => r.outer) }));
  return { parts, areaUm2, grown };
}
