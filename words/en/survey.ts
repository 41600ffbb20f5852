import type { SurveyFindings } from "../../core/stages/survey/findings.ts";
import type { Sentences } from "../words.ts";

const AREAS = { noDrill: "no-drill area", keepClear: "keep-clear area", loose: "loose area" };

function more(others: number): string {
  return others === 0 ? "" : ` So it is with ${others} more.`;
}

function alternatives(ties: readonly string[]): string {
  return ties.length < 2 ? (ties[0] ?? "") : `${ties.slice(0, -1).join(", ")} or ${ties[ties.length - 1]}`;
}

export const survey: Sentences<SurveyFindings> = {
  tape: ({ from, to, measured, should, off }, _, write) => ({
    says: `The tape ${from}-${to} reads ${write.mm(measured)} mm; by all the others it should be ${write.mm(should)} mm, so it is ${write.mm(Math.abs(off))} mm ${off > 0 ? "too long" : "too short"}. The outline was adjusted without it.`,
    do: `Measure ${from}-${to} again before you cut.`,
  }),
  tapeLikely: ({ from, to, measured, should, off, suspects }, _, write) => ({
    says: `One of the tapes ${alternatives(suspects)} is wrong, and no other reading tells which. ${from}-${to} is the likeliest: it reads ${write.mm(measured)} mm in place of ${write.mm(should)} mm, a slip of ${write.mm(Math.abs(off))} mm. The outline was adjusted without it.`,
    do: `Measure ${from}-${to} again, and one more diagonal to the same corner.`,
  }),
  tapeContradict: ({ suspects, offs, from, to }, _, write) => ({
    says: `The tapes contradict each other. One of ${alternatives(suspects.map((one, i) => `${one} (by ${write.mm(Math.abs(offs[i] ?? 0))} mm)`))} is wrong, and nothing tells which. All were used, so corners are off.`,
    do: `Measure these again, or ${from}-${to} to find out which.`,
  }),
  tapeUncontrolled: ({ ties, count, from, to }) => ({
    says: `Nothing checks ${count === 1 ? "the tape" : `${count} tapes:`} ${ties.join(", ")}${count > ties.length ? " and others" : ""}. A slip there would not show.`,
    do: `Measure one more diagonal, ${from}-${to} for one.`,
  }),
  tapeWeak: ({ mark, sigma, limit }, _, write) => ({
    says: `Corner ${mark} is only known to ${write.mm(sigma)} mm; ${write.mm(limit)} mm would do.`,
    do: `Add a tie to ${mark} that meets the others more squarely.`,
  }),
  tapeMirror: ({ from, to, here, other }, _, write) => ({
    says: `Two shapes fit these tapes. The larger was taken; in it ${from}-${to} is ${write.mm(here)} mm, in the other ${write.mm(other)} mm.`,
    do: `Measure ${from}-${to}.`,
  }),
  tapeClockwise: ({ readings }) => ({
    says: `The marks run clockwise: ${readings} readings lie on the right of the line from the first mark to the second.`,
    do: "Nothing, if the terrace lies on the right as you walk from the first mark to the second.",
  }),
  tiesUnused: ({ ties }) => ({
    says: `${ties} ${ties === 1 ? "tie was" : "ties were"} not used: the outline came by coordinates.`,
    do: "Name the corners in site.marks and leave out site.outline if the tapes are to count.",
  }),
  levelTwice: ({ x, y, readings, least, most, used, others }, _, write) => ({
    says: `${readings} levels at x ${write.mm(x)}, y ${write.mm(y)} differ by ${write.mm1(most - least)} mm; their mean, ${write.mm1(used)} mm, was used.${more(others)}`,
    do: "Read that place again.",
  }),
  levelFar: ({ x, y, z, off, others }, _, write) => ({
    says: `The level ${write.mm1(z)} mm at x ${write.mm(x)}, y ${write.mm(y)} lies ${write.mm(Math.abs(off))} mm ${off > 0 ? "above" : "below"} the rest. It was left out.${more(others)}`,
    do: "Read that place again, or correct its coordinates.",
  }),
  levelDecimal: ({ x, y, z, likely, off, others }, _, write) => ({
    says: `The level ${z} mm at x ${write.mm(x)}, y ${write.mm(y)} lies ${write.mm(Math.abs(off))} mm off the rest; with the point moved it would be ${write.mm1(likely)} mm and fit. It was left out.${more(others)}`,
    do: `Write ${likely} if that is what you read.`,
  }),
  levelAway: ({ x, y, distance, others }, _, write) => ({
    says: `The level at x ${write.mm(x)}, y ${write.mm(y)} lies ${write.mm(distance)} mm from the terrace. It was left out.${more(others)}`,
    do: "Correct its coordinates.",
  }),
  levelsOutside: ({ count, farthest }, _, write) => ({
    says: `${count} ${count === 1 ? "level lies" : "levels lie"} beside the outline${farthest > 0 ? `, up to ${write.mm(farthest)} mm off` : ""}. ${count === 1 ? "It was" : "They were"} kept.`,
    do: "Nothing, if they were meant to show how the base runs on.",
  }),
  straightedgeOutside: ({ count }) => ({
    says: `${count} straightedge ${count === 1 ? "reading lies" : "readings lie"} beside the outline.`,
    do: "Check the coordinates.",
  }),
  areaOutside: ({ what, name }) => ({
    says: `The ${AREAS[what]} "${name}" lies outside the outline and changes nothing.`,
    do: "Check its coordinates.",
  }),
  slabShort: ({ x, y, corners }, _, write) => ({
    says: `${corners === 1 ? "A corner of the terrace hangs" : `${corners} corners of the terrace hang`} over the edge of the slab, at x ${write.mm(x)}, y ${write.mm(y)} first.`,
    do: "Measure the slab's edge again, or draw the terrace in.",
  }),
};
