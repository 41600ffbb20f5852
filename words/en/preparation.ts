import type { PreparationFindings, PreparationWhy } from "../../core/stages/preparation/findings.ts";
import type { Sentences } from "../words.ts";

export const preparation: Sentences<PreparationFindings> = {
  noPreparation: (_d) => ({
    says: "None of the ways to prepare this base can be had within its limits; the table of options says what each one meets.",
    do: "Ask for a lower limit, another material, deeper grinding or a new layer, and have someone named decide.",
  }),
  loadUnknown: (d, _, write) => ({
    says:
      `The base is suspended and nobody has said what it may carry. Boards add ${write.number(d.boardsKgPerM2, 0)} kg/m²` +
      (d.fillKgPerM2 > 0 ? `, filling up to ${write.number(d.fillKgPerM2, 0)} kg/m² more.` : "."),
    do: "Have the permitted added load stated by someone licensed to, and enter it under base.loadMax.",
  }),
  loadOver: (d, _, write) => ({
    says: `Filling (up to ${write.number(d.fillKgPerM2, 0)} kg/m²) and boards (${write.number(d.boardsKgPerM2, 0)} kg/m²) weigh more than the ${write.number(d.limitKgPerM2, 0)} kg/m² permitted.`,
    do: "Take a lighter material or grind more and fill less, or have a higher load permitted in writing.",
  }),
  loadConfirmed: (d, _, write) => ({
    says: `Load confirmed by ${d.by}${d.on ? `, ${d.on}` : ""}; filling weighs up to ${write.number(d.fillKgPerM2, 0)} kg/m².`,
    do: "Keep the confirmation with the papers.",
  }),
  thinEdges: (d, _, write) => ({
    says: `On ${write.m2(d.areaMm2)} m² the filling would be thinner than the ${write.mm1(d.minMm)} mm that "${d.material}" needs.`,
    do: d.cutIn
      ? "Cut these edges in: grind them down until the least thickness fits. It is counted in grinding and filling."
      : "Feather these edges openly with a material made for it; the volumes count them as they are.",
  }),
};

/** Why an option can, or cannot, be had. */
export const preparationWhy: Record<PreparationWhy, string> = {
  asIs: "Nothing needs to be done.",
  breaches: "The base breaks limits as it is.",
  patched: "High places ground, hollows filled, only as far as the limits need.",
  fallNeedsPlane: "The falls are wrong; patching cannot change them.",
  tooUneven: "Patches meet one another everywhere; the base needs a whole plane.",
  puddlesStay: "Water would still stand after patching.",
  onePlane: "One plane with the wanted fall.",
  ridgePlanes: "Two planes that meet where the base bends today.",
  houseward: "It can be had, but water runs towards a wall.",
  grindTooDeep: "It would have to be ground deeper than allowed.",
  fillTooThick: "It would have to be filled thicker than the material may lie.",
  doorTooLow: "The boards would come too high at a door.",
  fallNotHad: "The wanted fall cannot be had within the other limits.",
  noMaterial: "No listed material can shape a fall.",
};
