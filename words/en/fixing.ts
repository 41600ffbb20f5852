import type { Barring, FixingFindings } from "../../core/stages/fixing/findings.ts";
import type { Sentences } from "../words.ts";

const row = (index: number) => `Row ${index + 1}`;

function because(why: Barring, name: string): string {
  const called = name ? ` "${name}"` : "";
  switch (why) {
    case "noDrill":
      return `the no-drill area${called} lies there`;
    case "slabEdge":
      return "the free edge of the slab is too near";
    case "offSlab":
      return "there is no slab under it";
    case "baseJoint":
      return "a joint in the base is too near";
    case "cutout":
      return `the cut-out${called} is in the way`;
    case "wall":
      return "the wall is in the way";
    case "short":
      return "the groove beside it is too short for one clip";
    case "clash":
      return "other clips stand there";
  }
}

export const fixing: Sentences<FixingFindings> = {
  clips: (d, _, write) => ({
    says: `${row(d.row)}: the ${d.edge} edge gets ${write.number(d.got, 0)} of ${write.number(d.needed, 0)} clips, because ${because(d.because, d.name)}.`,
    do: "Hold this piece by its other edge and by screws or trim, or have the place released for drilling.",
  }),
  clipEnd: (d, _, write) => ({
    says:
      d.foundMm === null
        ? `${row(d.row)}: no clip can stand within ${write.mm(d.limitMm)} mm of the end here, because ${because(d.because, d.name)}.`
        : `${row(d.row)}: the clip nearest to the end here stands ${write.mm(d.foundMm)} mm off; ${write.mm(d.limitMm)} mm is allowed. Nearer, ${because(d.because, d.name)}.`,
    do: "Press this end down and check that it lies still. Add a screw through the face if it lifts.",
  }),
  clipSpacing: (d, _, write) => ({
    says:
      d.foundMm === null
        ? `${row(d.row)}: clips here stand further apart than ${write.mm(d.limitMm)} mm, because ${because(d.because, d.name)}.`
        : `${row(d.row)}: ${write.mm(d.foundMm)} mm here without a clip; ${write.mm(d.limitMm)} mm from centre to centre is allowed. Between, ${because(d.because, d.name)}.`,
    do: "Shift the joint or turn the rows so that the barred place falls between clips, or hold the board there by another way the maker permits.",
  }),
  jointClip: (d) => ({
    says: `${row(d.row)}: no clip can hold an end of the joint here, because ${because(d.because, d.name)}.`,
    do: "Move the joint off this place (another shift or stagger), or hold the loose end by a screw where one may be drilled.",
  }),
  endClip: (d) => ({
    says: `${row(d.row)}: the ${d.end} end cannot be screwed down, because ${because(d.because, d.name)}.`,
    do: "Hold this end by the trim or by a bonded end clip the maker permits, and note it in the handover.",
  }),
  oneEdge: (d, _, write) => ({
    says:
      `${row(d.row)}: nothing holds the ${d.edge} edge of a piece ${write.mm(d.lengthMm)} mm long and ${write.mm(d.widthMm)} mm wide. ` +
      (d.barred
        ? "No clip and no screw may be drilled there, and no trim covers it."
        : `A screw needs ${write.mm(d.needMm)} mm of width, and no trim covers it.`),
    do: d.barred
      ? "Have the place released for drilling, or hold the board there by another way the maker permits. Else accept in writing that it is held on one side only."
      : "Spread the row gaps or change the first row so that the rip gets wider, cover the edge with trim, or accept in writing that it is held on one side only.",
  }),
  slabUnknown: (d, _, write) => ({
    says: `Side ${d.side + 1} is open and nobody has said where the base ends there. No hole's distance from its edge was checked.`,
    do: `Measure the edge of the base and enter it as site.slab. Until then drill nothing nearer than ${write.mm(d.limitMm)} mm to it.`,
  }),
  wallReach: (d, _, write) => ({
    says: `${d.count === 1 ? "One clip stands" : `${write.number(d.count, 0)} clips stand`} nearer than ${write.mm(d.reachMm)} mm to a wall, the nearest at ${write.mm(d.nearestMm)} mm: the drill's body may not fit there.`,
    do: "Take a long bit or an angle drill there, or drill before the wall is in the way.",
  }),
};
