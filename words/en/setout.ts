import type { SetoutFindings } from "../../core/stages/setout/findings.ts";
import type { Sentences } from "../words.ts";

export const setout: Sentences<SetoutFindings> = {
  fieldEmpty: (d, _f, w) => ({
    says: `Once every gap is taken off the ${w.m2(d.areaMm2)} m² inside the outline, no place is left for a board.`,
    do: "Check the outline and the gaps along its sides.",
  }),
  fieldThin: (d, _f, w) => ({
    says: `Once every gap is taken off, ${w.mm1(d.widthMm)} mm or less are left here over ${w.mm(d.lengthMm)} mm: too thin for a piece of board. The place stays bare.`,
    do: "Measure the outline here again, or give its sides smaller gaps.",
  }),
  needleLeftOut: (d, _f, w) => ({
    says: `Row ${d.row + 1}: a strip of ${w.mm1(d.widthMm)} × ${w.mm(d.lengthMm)} mm is too thin for a piece of board and stays bare.`,
    do: "Cover it with trim or fill it, or move the start line.",
  }),
  tipBlunted: (d, _f, w) => ({
    says: `Row ${d.row + 1} runs out to a point: the last ${w.mm(d.lengthMm)} mm, thinner than ${w.mm(d.widthMm)} mm, are cut off square and stay bare.`,
    do: "Cover the tip with trim or fill it, or turn the rows along this side.",
  }),
  webLeftOut: (d, _f, w) => ({
    says: `Row ${d.row + 1}: beside ${d.name || "the cut-out"} only ${w.mm(d.widthMm)} mm of board would stand over ${w.mm(d.lengthMm)} mm, and no joint can be put there. It is left out.`,
    do: "Close the place with trim, or move the start line so that a whole board passes.",
  }),
  edgeBare: (d, _f, w) => ({
    says: `The edge beside row ${d.row + 1} falls between two rows: ${w.mm1(d.bareMm)} mm more than the gap stays bare.`,
    do: "Hide it under trim or a flange, or move the start line.",
  }),
  rowsAskew: (d, _f, w) => ({
    says: `The rows run at ${w.number(d.angleDeg, 1)}°, neither along nor across any long side: every row is cut at a slant. Side ${d.side + 1}, which they come nearest to, runs at ${w.number(d.sideDeg, 1)}°, ${w.number(d.offDeg, 1)}° off.`,
    do: `If that was not meant, give bond.angle ${w.number(d.sideDeg, 2)} for rows along it, or null to have the direction chosen.`,
  }),
};
