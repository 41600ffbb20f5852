import type { BondFindings } from "../../core/stages/bond/findings.ts";
import type { Sentences } from "../words.ts";

const WHY: Record<BondFindings["jointMoved"]["why"], string> = {
  minPiece: "the end piece would be too short otherwise",
  post: "a thin bridge of board would be left otherwise",
  clear: "no joint may lie where the bond has it",
  stagger: "it would come too near a joint of the next row otherwise",
  locked: "the row is begun and keeps it",
};
const DROPPED: Record<BondFindings["lockedDropped"]["why"], string> = {
  outside: "it lies outside the row now",
  oneBoard: "one board covers the row there now",
  tooShort: "hardly any board would be left beside it",
};

export const bond: Sentences<BondFindings> = {
  jointMoved: (d, _f, w) => ({
    says: `Row ${d.row + 1}: a joint lies ${w.mm(d.movedMm)} mm off the bond${d.name ? `, at ${d.name}` : ""}: ${WHY[d.why]}.`,
    do: "Lay it as drawn, or try another shift.",
  }),
  lockedDropped: (d, _f, w) => ({
    says: `Row ${d.row + 1}: the joint at ${w.mm(d.atMm)} mm was to stay and cannot: ${DROPPED[d.why]}.`,
    do: "Look at what lies there: take it up, or leave it and tell who signs for the work.",
  }),
  jointLeftOut: (d) => ({
    says: `Row ${d.row + 1} has no joint where the bond would have one: the row's other joints had to be moved.`,
    do: "Lay it as drawn, or try another shift.",
  }),
  jointAtPost: (d) => ({
    says: `Row ${d.row + 1} is short enough for one board but is parted at ${d.name || "the cut-out"}, so that the boards go round it.`,
    do: "Lay it as drawn: joint at the cut-out.",
  }),
  staggerShort: (d, _f, w) => ({
    says: `Row ${d.row + 1}: a joint lies ${w.mm(d.distanceMm)} mm from one in the row below; at least ${w.mm(d.limitMm)} mm are asked for.`,
    do: "Try another shift, or accept the joint here.",
  }),
  pieceShort: (d, _f, w) => ({
    says: `Row ${d.row + 1}: a piece is only ${w.mm(d.lengthMm)} mm long; at least ${w.mm(d.limitMm)} mm are asked for.`,
    do: "Try another shift, or fix this piece at both ends.",
  }),
  pieceNarrow: (d, _f, w) => ({
    says: `Row ${d.row + 1} holds a strip only ${w.mm(d.widthMm)} mm wide; at least ${w.mm(d.limitMm)} mm are asked for.`,
    do: "Spread the gaps, move the start line or turn the rows.",
  }),
  scrapLeftOut: (d, _f, w) => ({
    says: `Row ${d.row + 1}: a joint leaves a scrap of ${w.mm1(d.widthMm)} × ${w.mm(d.lengthMm)} mm; it is left out and the place stays bare.`,
    do: "Cover the place with trim or fill it, or try another shift.",
  }),
  freeShortPiece: (d, _f, w) => ({
    says: `Row ${d.row + 1}: a piece is only ${w.mm(d.lengthMm)} mm long; at least ${w.mm(d.leastMm)} mm are asked for.`,
    do: "Fix this piece at both ends, or allow shorter pieces.",
  }),
  freeStagger: (d, _f, w) => ({
    says: `Row ${d.row + 1}: a joint lies ${w.mm(d.foundMm)} mm from one in the row below; at least ${w.mm(d.leastMm)} mm are asked for.`,
    do: "Accept the joint here, or ask for less stagger.",
  }),
  freeBarred: (d) => ({
    says: `Row ${d.row + 1}: a joint lies where none should: too near a cut-out, or in a place to be kept clear.`,
    do: "Check the place before cutting, or move the start line.",
  }),
  freeMissing: (d) => ({
    says: `Row ${d.row + 1}: ${d.name || "a cut-out"} asks for a joint beside it, and none could be put there.`,
    do: "Cut the board open at this place, or move the start line.",
  }),
};
