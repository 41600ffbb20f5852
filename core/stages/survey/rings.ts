import type { Vertex } from "../../job/job.ts";
import type { SurveyRecord } from "./record.ts";
import type { FlatRing } from "./ring.ts";

/** The rings of a site as read: the outline with its sides, and every area; null where one could not be read. */
export interface ReadOutline {
  ring: Vertex[];
  sides: SurveyRecord["sides"];
  flat: FlatRing;
}
export interface ReadRings {
  cutouts: (FlatRing | null)[];
  noDrill: (FlatRing | null)[];
  keepClear: (FlatRing | null)[];
  loose: (FlatRing | null)[];
  slab: FlatRing | null;
}
