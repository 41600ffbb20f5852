import type { SiteFindings } from "../../core/stages/site/findings.ts";
import type { Sentences } from "../words.ts";

const LOCAL = "Local code decides.";

export const site: Sentences<SiteFindings> = {
  doorSill: (d, _, write) => ({
    says:
      d.stepAfterMm === 0
        ? `Side ${d.side + 1}: the boards come up ${write.mm(d.riseMm)} mm and lie level with the sill. Water can run in.`
        : `Side ${d.side + 1}: the boards come up ${write.mm(d.riseMm)} mm and stand ${write.mm(-d.stepAfterMm)} mm above the sill of ${write.mm(d.sillMm)} mm. Water can run in.`,
    do: `Keep the boards off the door with a drained channel, lower the base there, or have the threshold rebuilt and its sealing proven. ${LOCAL}`,
  }),
  doorStep: (d, _, write) => ({
    says: `Side ${d.side + 1}: the step at the door goes from ${write.mm(d.sillMm)} to ${write.mm(d.stepAfterMm)} mm.`,
    do: `As a reference (NHBC 2020, 7.1.11): at most ${write.mm(d.lowMm)} mm upstand at a level threshold, which needs its own drainage; else the floor at least ${write.mm(d.dryMm)} mm below the sill. ${LOCAL}`,
  }),
  sillUnknown: (d, _, write) => ({
    says: `Side ${d.side + 1}: the door's sill was not measured. The floor comes up ${write.mm(d.riseMm)} mm there.`,
    do: "Measure the sill above the base, with the height of its sealing, and enter it before you order.",
  }),
  doorLeaf: (d, _, write) => ({
    says: `Side ${d.side + 1}: the leaf clears ${write.mm(d.leafClearMm)} mm and the boards stand ${write.mm(d.riseMm)} mm high. ${d.opensKnown ? "The door will not open." : "If the door opens outward, it will not."}`,
    do: d.opensKnown
      ? "Have the door raised or cut by who is licensed to, rehang it inward, or keep boards out of its sweep. Never trim a fire or escape door."
      : "Find out which way the door opens.",
  }),
  leafUnknown: (d, _, write) => ({
    says: `Side ${d.side + 1}: the door opens outward and nobody has measured what its leaf clears. The boards stand ${write.mm(d.riseMm)} mm high.`,
    do: "Open the door all the way and measure the least clear height under the leaf.",
  }),
  guardRise: (d, _, write) => ({
    says: `${d.side === null ? "The guards" : `The guard at side ${d.side + 1}`} will stand ${write.mm(d.riseMm)} mm lower: a guard is measured from the finished floor.`,
    do: `Measure every guard now, take ${write.mm(d.riseMm)} mm off, and have a named person accept what is left. References: 1 100 mm at an external balcony (England, Approved Document K); 0.90 m, above 12 m 1.10 m (German states). ${LOCAL}`,
  }),
  poolEdge: (d) => ({
    says: `Side ${d.side + 1} is a pool's edge: it is walked on wet and barefoot.`,
    do: `Ask for the board's barefoot slip class as it will be laid, and keep the document. ${LOCAL}`,
  }),
  endGapCloses: (d, _, write) => ({
    says: `A board ${write.mm(d.lengthMm)} mm long grows ${write.mm1(d.growthMm)} mm when it warms by ${write.number(d.kelvin, 0)} K; the end gap is ${write.mm1(d.gapMm)} mm. It will close and push.`,
    do: "Widen the end gap or take shorter boards. The maker's own figure for the gap at the laying temperature goes before this one.",
  }),
  lidRise: (d, _, write) => ({
    says: `"${d.name}" keeps its level while the floor round it comes up ${write.mm(d.riseMm)} mm.`,
    do: "Raise its frame or leave the boards so that its lid lifts and water still reaches it.",
  }),
  weepSlots: (d, _, write) => ({
    says: `Everything in the walls up to ${write.mm(d.riseMm)} mm above the base is covered: weep slots, vents, overflows, the top of the sealing.`,
    do: "Walk the walls before you order. Keep every slot and overflow free, and the sealing above the new floor as high as local code asks.",
  }),
  channelsAcross: (d, _, write) => ({
    says: `The boards' channels lie ${write.number(d.offDeg, 0)} degrees off the fall. Of ${write.percent(d.fall)} only ${write.percent(d.alongFall)} is left along them; under ${write.percent(d.limit)} they hold water.`,
    do: "Turn the rows so that the channels run down the fall, or take a board whose channels do.",
  }),
  channelsNone: () => ({
    says: "The board has no channels: water under it has no way out.",
    do: "Take a board with channels, or ask its maker how it drains on a flat base.",
  }),
  channelsBlind: (d) => ({
    says: `The channels run down to side ${d.side + 1}, a ${d.kind}, and end there.`,
    do: "Give the water a way along that side: a drained strip, a gully, an outlet through it.",
  }),
  trimDams: (d) => ({
    says: `The trim at side ${d.side + 1} closes the downhill edge: water stays behind its leg.`,
    do: "Take a vented trim there, or set it on spacers so that the channels stay open.",
  }),
  outletMissing: (d, _, write) => ({
    says: `The base falls ${write.percent(d.fall)} and no side downhill lets water out.`,
    do: "Say where it goes: an outlet, an open edge or a gully on the downhill side.",
  }),
};
