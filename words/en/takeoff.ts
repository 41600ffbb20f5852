import type { TakeoffFindings } from "../../core/stages/takeoff/findings.ts";
import type { Sentences } from "../words.ts";

const BASES: Record<string, string> = { tiles: "tiles", paving: "paving" };

export const takeoff: Sentences<TakeoffFindings> = {
  unpriced: ({ items }) => ({
    says: `The total leaves out ${items.length === 1 ? "one item" : `${items.length} items`} without a price: ${items.join(", ")}.`,
    do: `Enter them in the job by these names, as "prices": { "clip-seam": 85 } in minor units, or add them to the total by hand.`,
  }),
  spareStock: ({ wanted, had }) => ({
    says: `You want ${wanted} spare boards and the stock at hand leaves ${had}.`,
    do: "Get more boards of the same batch before you start, or cut without a mistake.",
  }),
  batches: ({ packs }) => ({
    says: `The boards come in ${packs} packs, and shades can differ from pack to pack.`,
    do: "Ask for one batch, note the batch numbers, and lay boards mixed from several packs.",
  }),
  fixingLengths: ({ leastMm, greatestMm, lengths }, _, write) => ({
    says: `The filling is not equally thick: clips need ${lengths} lengths of fixing, from ${write.mm(leastMm)} to ${write.mm(greatestMm)} mm at least.`,
    do: "Set the depth stop by the row card, and keep the lengths apart.",
  }),
  fixingDepth: ({ embedMm, kind }, _, write) => ({
    says: `Nobody has measured how thick the ${BASES[kind] ?? kind} and their bedding are. The fixings are listed with ${write.mm(embedMm)} mm in the base and nothing for what lies above it.`,
    do: "Drill one hole, measure down to the solid base, and order fixings longer by that. Make a trial pull test before laying.",
  }),
  fixingNoLevels: ({ embedMm }, _, write) => ({
    says: `Without prepared levels the fixings are listed with ${write.mm(embedMm)} mm in the base and no filling above it.`,
    do: "Order fixings after the base is levelled, or add the thickness of the filling.",
  }),
  trimMissing: ({ side, lengthMm }, _, write) => ({
    says: `Side ${side + 1} is open for ${write.mm(lengthMm)} mm and the job names no trim: board ends and undersides will show.`,
    do: "Enter a trim, or agree with the client that the edge stays bare.",
  }),
  trimCurved: ({ side, lengthMm }, _, write) => ({
    says: `Side ${side + 1} is open and curved, ${write.mm(lengthMm)} mm along the arc. Straight trim does not follow it.`,
    do: "Order trim that may be bent to this radius, or have it bent; lengths are listed along the arc.",
  }),
  trimMitre: ({ side, cornerDeg }, _, write) => ({
    says: `The trim on side ${side + 1} ends in a corner of ${write.number(cornerDeg, 1)} degrees: its mitre is steeper than a usual saw cuts.`,
    do: "Let one trim run through and butt the other against it, or make the corner from two blunt ones.",
  }),
};
