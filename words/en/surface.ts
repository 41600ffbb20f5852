import type { SurfaceFindings } from "../../core/stages/surface/findings.ts";
import type { Figures, Sentences } from "../words.ts";

const facetOf = (facet: number, facets: number) => (facets > 1 ? `Facet ${facet + 1} of the base` : "The base");
const litres = (mm3: number, write: Figures) => `${write.number(mm3 / 1e6, 1)} l`;
/** A fall that prints as its limit is said to lie under it. */
const justUnder = (d: { fall: number; limit: number }, write: Figures) =>
  (write.percent(d.fall) === write.percent(d.limit) ? "just under " : "") + write.percent(d.fall);
/** By how little a fall is short: in % and in what a level would show over two metres. */
const littleMissing = (percent: number, write: Figures) => {
  const mm = percent * 20;
  const over = mm < 0.1 ? `less than ${write.number(0.1, 1)}` : write.number(mm, 1);
  const short = percent < 0.0001 ? `less than ${write.number(0.0001, 4)}` : write.number(percent, 4);
  return `${short} % is missing, ${over} mm over 2 m`;
};
const HIDDEN =
  "Do not drill. Have someone named confirm where holes may go and how deep, and enter it under base.confirmed.";

export const surface: Sentences<SurfaceFindings> = {
  noLevels: () => ({
    says: "No levels were taken: nothing is known of the base's evenness and fall.",
    do: "Take spot levels no more than 500 mm apart, or lay a straightedge and read the gaps. The plan goes on without.",
  }),
  fewLevels: (d, _, write) => ({
    says: d.onOneLine
      ? `${write.number(d.count, 0)} levels were read, but those that count lie on one line or too few lie on the base: they do not make a surface.`
      : `Only ${write.number(d.count, 0)} levels were read: they do not make a surface.`,
    do: "Take at least three that do not stand in line; for a verdict no more than 500 mm apart.",
  }),
  levelsOutside: (d, _, write) => ({
    says: `${write.number(d.count, 0)} levels lie outside the outline or in a cut-out. They help at the edge and count in no verdict.`,
    do: "Check their places if that was not meant.",
  }),
  levelTwice: (d, _, write) => ({
    says: `Two levels at one place differ by ${write.mm1(d.differenceMm)} mm. Their mean is used.`,
    do: "Read this place again.",
  }),
  unevenness: (d, _, write) => ({
    says: `A ${write.mm(d.lengthMm)} mm straightedge shows a gap of ${write.mm1(d.gapMm)} mm here; ${write.mm1(d.limitMm)} mm is allowed.`,
    do: "Grind the two high points it rests on, or fill the hollow between them.",
  }),
  unevennessRead: (d, _, write) => ({
    says: `You read a gap of ${write.mm1(d.gapMm)} mm under a ${write.mm(d.lengthMm)} mm straightedge here; ${write.mm1(d.limitMm)} mm is allowed.`,
    do: "Grind the two high points it rests on, or fill the hollow between them.",
  }),
  deviation: (d, _, write) => ({
    says: `${facetOf(d.facet, d.facets)} is ${write.mm1(d.halfWidthMm)} mm off its own best plane here; ${write.mm1(d.limitMm)} mm is allowed.`,
    do: "Choose one of the preparation options; the staking list says how much at each reading.",
  }),
  fall: (d, f, write) => {
    const slight = f.releasedBy === "document";
    const missing = slight ? `: ${littleMissing(d.limit - d.fall, write)}` : "";
    return {
      says: `${facetOf(d.facet, d.facets)} falls ${justUnder(d, write)}; at least ${write.percent(d.limit)} is wanted${missing}.`,
      do:
        (slight ? "Accepting it in writing is the cheap way; else shape" : "Shape") +
        " a fall with mortar. Pourable compound levels itself and cannot make one.",
    };
  },
  fallMax: (d, _, write) => ({
    says: `${facetOf(d.facet, d.facets)} falls ${write.percent(d.fall)}; at most ${write.percent(d.limit)} is wanted.`,
    do: "Lessen the fall, or accept it in writing: boards on a steeper base are slippery when wet.",
  }),
  fallLocal: (d, _, write) => ({
    says: `${write.m2(d.areaMm2)} m² round here fall less than ${write.percent(d.limit)}, down to ${write.percent(d.fall)}.`,
    do: "Water stays here. Give the area its fall, or accept in writing that it dries late.",
  }),
  fallToHouse: (d, _, write) => ({
    says: `The base falls ${write.percent(d.fall)} towards the ${d.kind} here: water is led to the house.`,
    do: "Turn the fall away, or put a drain along it before anything is laid.",
  }),
  puddle: (d, _, write) => ({
    says:
      `Water stands ${write.mm1(d.depthMm)} mm deep on ${write.m2(d.areaMm2)} m² here (${litres(d.volumeMm3, write)})` +
      (d.atDoor ? ", up to a door." : "."),
    do:
      "Fill the hollow or cut a way out for the water." +
      (d.cutout ? ` If "${d.cutout}" is a gully, give it the height "removable".` : ""),
  }),
  lidDrains: (d) => ({
    says: `"${d.name}" has a removable lid and is taken to drain water.`,
    do: "If it does not drain, give it another height, so that water is held to stand round it.",
  }),
  noOutlet: () => ({
    says: "Water has no way off the base: no side is open or an outlet, and no cut-out has a removable lid.",
    do: "Say which side lets water off or where the gully is. Puddles are shown as if it ran off at the lowest place.",
  }),
  notProven: (d, _, write) => ({
    says: `The levels lie ${write.mm(d.spacingMm)} mm apart at worst. Wider than ${write.mm(d.limitMm)} mm they cannot prove evenness.`,
    do: "Lay a straightedge and read the gaps, or take levels in between.",
  }),
  firmNot: () => ({
    says: "The base is not firm.",
    do: "Lay nothing on it. Have it made firm, and someone named confirm it.",
  }),
  firmUnknown: () => ({
    says: "Nobody has said whether the base is firm.",
    do: "Sound it, try a fixing, and enter what you found.",
  }),
  loose: (d) => ({
    says: `"${d.name}" (${d.kind}) lies loose.`,
    do: "Lift it and put a levelled layer in its place. Test old adhesive for asbestos before you touch it; leave reinforcement to a designer.",
  }),
  membrane: (d) => ({
    says: d.known
      ? "There is a membrane under the surface."
      : "Nobody knows whether there is a membrane under the surface.",
    do: HIDDEN,
  }),
  heating: (d) => ({
    says: d.known ? "There is heating in the base." : "Nobody knows whether there is heating in the base.",
    do: HIDDEN,
  }),
  tendons: (d) => ({
    says: d.known ? "There are tendons in the base." : "Nobody knows whether there are tendons in the base.",
    do: `${HIDDEN} On a cantilevered balcony the main steel lies at the top.`,
  }),
  confirmed: (d) => ({
    says: `${d.of}: confirmed by ${d.by}${d.on ? `, ${d.on}` : ""}${d.says ? `: "${d.says}"` : ""}.`,
    do: "Keep the confirmation with the papers.",
  }),
  baseKind: (d) => ({
    says: `The base is ${d.kind === "asphalt" ? "asphalt" : "unbonded paving"}: ordinary fixings do not hold in it.`,
    do: "Use a fixing proven for it, with trial pulls on record, and enter who confirmed it under base.confirmed (fixing).",
  }),
};
