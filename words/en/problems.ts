import type { ProblemData } from "../../core/problems.ts";
import type { Kind, SyntaxWhat } from "../../core/read/codes.ts";
import type { Problem } from "../../core/read/problem.ts";
import type { Figures, Said } from "../words.ts";

export type ProblemSentences<Table> = {
  [C in keyof Table & string]: (data: Table[C], problem: Problem<C, Table[C]>, write: Figures) => Said;
};

const KINDS: Record<Kind, string> = {
  object: "a group in braces { }",
  list: "a list in brackets [ ]",
  text: "a text in quotes",
  number: "a number",
  whole: "a whole number",
  yesno: "true or false",
  null: "null",
  nothing: "nothing",
};
const SYNTAX: Record<SyntaxWhat, Said> = {
  symbol: { says: "This is no JSON value.", do: "Put texts in quotes; numbers, true, false and null stand alone." },
  number: { says: "This is no JSON number.", do: "Write it plainly, 12.5 or -3, with a point and no unit." },
  nameExpected: {
    says: "A name in quotes is missing here.",
    do: 'Write "name": value, and no comma after the last one.',
  },
  valueExpected: { says: "A value is missing here.", do: "Write one, or take out the comma or name before it." },
  colonExpected: { says: "A colon is missing after a name.", do: 'Write "name": value.' },
  commaExpected: { says: "A comma is missing between two entries.", do: "Put a comma before this." },
  closeBrace: { says: "A group is opened with { and never closed.", do: "Close it with }." },
  closeBracket: { says: "A list is opened with [ and never closed.", do: "Close it with ]." },
  afterEnd: { says: "The file goes on after its end.", do: "Take out what follows, or check the brackets before it." },
  comment: { says: "JSON has no comments.", do: "Take it out, or put it in a key that begins with x-." },
  openString: { says: "A text is opened with a quote and not closed on its line.", do: "Close it with a quote." },
  unicode: { says: "\\u wants four hexadecimal digits after it.", do: "Write them, or the letter itself." },
  escape: { says: "A backslash stands before a letter that takes none.", do: "Write \\\\ for a backslash." },
  character: { says: "A control character stands inside a text.", do: "Write \\n for a new line, \\t for a tab." },
  other: { says: "This is not sound JSON.", do: "Save the file again from the program that wrote it, as plain JSON." },
};

function either(words: readonly string[]): string {
  if (words.length < 2) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} or ${words[words.length - 1]}`;
}

function quoted(words: readonly string[]): string {
  return either(words.map((word) => JSON.stringify(word)));
}

function meant(nearest: string | null, otherwise: string): string {
  return nearest === null ? otherwise : `Write ${JSON.stringify(nearest)}.`;
}

function withUnit(value: number, unit: string): string {
  return unit === "" ? String(value) : `${value} ${unit}`;
}

function corner(x: number, y: number): string {
  return `x ${x}, y ${y}`;
}

/** What is wrong with a file, and what to do: said for every code there is. */
export const problems: ProblemSentences<ProblemData> = {
  textTooLarge: ({ bytes, limit }, _, write) => ({
    says: `The file holds ${write.number(bytes / 1048576, 1)} MB; ${write.number(limit / 1048576, 0)} MB is the most that is read.`,
    do: "Thin out the levels, or split the job.",
  }),
  textEmpty: () => ({ says: "The file is empty.", do: "Check the name, or save the job again." }),
  tooDeep: ({ limit }) => ({
    says: `Brackets are nested more than ${limit} deep here.`,
    do: "Our files need a tenth of that: check what wrote this one.",
  }),
  syntax: ({ what, found }) => ({
    says:
      found === "" || what === "closeBrace" || what === "closeBracket"
        ? SYNTAX[what].says
        : `${SYNTAX[what].says} Found: ${found.trim()}`,
    do: SYNTAX[what].do,
  }),
  brokenText: ({ found }) => ({
    says: `This text holds half a character: ${found}.`,
    do: "Type it again; it was cut in the middle of a sign.",
  }),
  notFinite: ({ found }) => ({
    says: `${found} is beyond any number we can hold.`,
    do: "Check the exponent and the point.",
  }),
  repeatedKey: ({ key, firstLine }) => ({
    says: `${JSON.stringify(key)} stands here a second time; the first is on line ${firstLine}.`,
    do: "Keep one of the two.",
  }),
  unknownKey: ({ key, nearest, elsewhere, known }) => ({
    says: `${JSON.stringify(key)} is not known here.`,
    do:
      nearest !== null
        ? `Write ${JSON.stringify(nearest)}, or begin it with x- if it is your own.`
        : elsewhere !== null
          ? `It belongs at ${elsewhere}. Move it there.`
          : `Known here: ${known.slice(0, 12).join(", ")}. Begin it with x- if it is your own.`,
  }),
  missing: ({ key, expected, title }) => ({
    says: `${JSON.stringify(key)} is missing (${title.charAt(0).toLowerCase()}${title.slice(1)}).`,
    do: expected.length === 0 ? "Add it." : `Add it: ${either(expected.map((kind) => KINDS[kind]))}.`,
  }),
  wrongType: ({ found, expected, choices }) => {
    const kinds = either(expected.map((kind) => KINDS[kind]));
    const here =
      found.kind === "list" ? `a list of ${found.shown}` : found.kind === "object" ? "a group in braces" : found.shown;
    return {
      says: `Found ${here}; expected ${kinds}.`,
      do: choices.length > 0 ? `Write ${quoted(choices)}.` : `Write ${kinds}.`,
    };
  },
  wrongChoice: ({ found, choices, nearest }) => ({
    says: `${JSON.stringify(found)} is not one of ${quoted(choices)}.`,
    do: meant(nearest, "Write one of them."),
  }),
  tooSmall: ({ found, limit, unit, excluded }) => ({
    says: `${withUnit(found, unit)} is too little; it must be ${excluded ? "more than" : "at least"} ${withUnit(limit, unit)}.`,
    do: "Check the figure and its unit.",
  }),
  tooGreat: ({ found, limit, unit, excluded }) => ({
    says: `${withUnit(found, unit)} is too much; it must be ${excluded ? "less than" : "at most"} ${withUnit(limit, unit)}.`,
    do: "Check the figure and its unit.",
  }),
  notWhole: ({ found }) => ({ says: `${found} is not a whole number.`, do: "Write a whole number." }),
  tooFew: ({ found, limit }) => ({
    says: `${found} entries; at least ${limit} are needed.`,
    do: "Add what is missing.",
  }),
  tooMany: ({ found, limit }) => ({
    says: `${found} entries; at most ${limit} are taken.`,
    do: "Take some out, or split the job.",
  }),
  textTooShort: ({ limit }) => ({
    says: `This text needs at least ${limit} ${limit === 1 ? "character" : "characters"}.`,
    do: "Write it.",
  }),
  textTooLong: ({ found, limit }) => ({
    says: `This text has ${found} characters; ${limit} fit on the papers.`,
    do: "Shorten it.",
  }),
  textPattern: ({ found, example }) => ({
    says: `${JSON.stringify(found)} is not written as expected.`,
    do: example === "" ? "Check its form." : `Write it like ${JSON.stringify(example)}.`,
  }),
  otherFormat: ({ found, expected }) => ({
    says: `This is a ${found} file; ${expected} is wanted here.`,
    do: "Give the right file, or the files in the right order.",
  }),
  futureFormat: ({ found, newest }) => ({
    says: `The file is ${found}; this Rowline reads up to ${newest}.`,
    do: "Install a newer Rowline: an older one must not guess at what it does not know.",
  }),
  moreProblems: ({ count }) => ({ says: `And ${count} more of the kind.`, do: "Mend these first, then try again." }),

  noOutline: () => ({
    says: "The site has neither an outline nor marks.",
    do: "Give site.outline as [[x, y], ...], or site.marks with survey.ties.",
  }),
  outlineTwice: () => ({
    says: "The outline is given twice, by coordinates and by marks.",
    do: "Keep site.outline or site.marks.",
  }),
  sidesCount: ({ sides, corners }) => ({
    says: `${sides} sides for ${corners} corners: each side runs from its corner to the next, the last one back to the first.`,
    do: `Give ${corners} sides, or leave them out where all are walls.`,
  }),
  moreThan: ({ what, found, than, limit, unit }) => ({
    says: `${what} is ${withUnit(found, unit)}, more than ${than}, ${withUnit(limit, unit)}.`,
    do: "Change one of the two.",
  }),
  sideGapOutsideRange: ({ side, least, most }) => ({
    says: `The side gap of ${side} mm lies outside its own range, ${least} to ${most} mm.`,
    do: "Change gaps.side or gaps.sideRange.",
  }),
  offsetSide: ({ side, sides }) => ({
    says: `There is no side ${side}; sides are counted from 0 to ${sides - 1}.`,
    do: "Give the index of the side it was measured on.",
  }),
  fewMarks: ({ found }) => ({
    says: `${found} marks make no surface.`,
    do: "Name at least three corners, in order round the outline.",
  }),
  markTwice: ({ mark, first }) => ({
    says: `Mark ${JSON.stringify(mark)} is named a second time; it is already number ${first + 1}.`,
    do: "Name each corner once; the ring closes by itself.",
  }),
  unknownMark: ({ mark, nearest, known }) => ({
    says: `There is no mark ${JSON.stringify(mark)}.`,
    do: meant(nearest, `Marks are ${known.slice(0, 12).join(", ")}. Use one, or add it to site.marks.`),
  }),
  lengthTwice: ({ length, first }) => ({
    says: `Boards of ${length} mm are listed a second time; they are already entry ${first}.`,
    do: "Keep one entry for each length, with its price and pack.",
  }),
  tieToItself: ({ mark }) => ({
    says: `This tie runs from ${JSON.stringify(mark)} to itself.`,
    do: "Name the other end.",
  }),

  fewCorners: ({ found }) => ({
    says: `${found} corners enclose nothing.`,
    do: "Give at least three, or two with an arc between them.",
  }),
  repeatedCorner: ({ corner: a, again, x, y, closing }) => ({
    says: `Corner ${again} repeats corner ${a} (${corner(x, y)}).`,
    do: closing ? "Leave out the last corner: a ring closes by itself." : "Take one of them out.",
  }),
  spike: ({ corner: at, x, y }) => ({
    says: `At corner ${at} (${corner(x, y)}) the line runs straight back over itself.`,
    do: "Take the corner out, or correct it.",
  }),
  bulgeTooGreat: ({ corner: at, bulge, limit }) => ({
    says: `The bulge of ${bulge} at corner ${at} is nearly a full circle; ${limit} is the most.`,
    do: "Give the arc as two, or check the figure: bulge is the tangent of a quarter of the arc's angle.",
  }),
  ringCrosses: ({ how, sideA, sideB, x, y }) => ({
    says:
      sideA === sideB
        ? `Side ${sideA} ${how} itself at ${corner(x, y)}.`
        : `Side ${sideB} ${how} side ${sideA} at ${corner(x, y)}.`,
    do:
      how === "crosses"
        ? "Check the order of the corners, then the figures."
        : "Move the corners apart, or cut the surface into two jobs.",
  }),
  noArea: ({ areaMm2, limitMm2 }) => ({
    says:
      limitMm2 === 0
        ? "This ring encloses no area."
        : `This encloses ${areaMm2} mm²; it must be more than ${limitMm2} mm².`,
    do: "Check that lengths are in millimetres and that no corner is missing.",
  }),
  tooWide: ({ found, limit }, _, write) => ({
    says: `This is ${write.mm(found)} mm across; ${write.mm(limit)} mm is the most.`,
    do: "Check that lengths are in millimetres, or split the job.",
  }),
  tooFar: ({ x, y, limit }, _, write) => ({
    says: `${corner(x, y)} lies more than ${write.mm(limit)} mm from the outline.`,
    do: "Check the figures: everything on a site is given in one frame, in millimetres.",
  }),
  tooManyBoards: ({ boards, limit, areaM2 }, _, write) => ({
    says: `${write.number(areaM2, 0)} m² take at least ${write.number(boards, 0)} boards of this size; ${write.number(limit, 0)} is the most.`,
    do: "Check that lengths are in millimetres, and the board's width; else split the job.",
  }),
  tooManyClips: ({ clips, limit, areaM2, apart }, _, write) => ({
    says: `${write.number(areaM2, 0)} m² with a clip every ${write.mm(apart)} mm take at least ${write.number(clips, 0)} clips; ${write.number(limit, 0)} is the most.`,
    do: "Check that clips.clearMax and board.width are in millimetres; else split the job.",
  }),
  tooThin: ({ widthMm, lengthM, limitM }, _, write) => ({
    says: `The outline is about ${write.mm(widthMm)} mm wide over ${write.number(lengthM, 0)} m: no board fits into it, and ${write.number(limitM, 0)} m is the most that can be listed as bare.`,
    do: "Check that lengths are in millimetres and the corners are in order.",
  }),
  tooManyArcPoints: ({ limit }) => ({
    says: `Its arcs need more than ${limit} points to be drawn within 0.2 mm.`,
    do: "Check the bulges, or split the ring.",
  }),
  cutoutOutside: ({ name }) => ({
    says: `The cut-out "${name}" lies outside the outline.`,
    do: "Check its coordinates, or take it out: it takes nothing away.",
  }),
  cutoutsCoverAll: ({ cutouts }) => ({
    says: `${cutouts === 1 ? "The cut-out covers" : `The ${cutouts} cut-outs together cover`} the whole surface; nothing is left to lay.`,
    do: "Check which ring is the outline and which is the hole.",
  }),
  offsetOnArc: ({ side }) => ({
    says: `Side ${side} is an arc; offsets are measured from a straight side.`,
    do: "Give the arc more corners instead.",
  }),
  offsetBeyond: ({ side, along, length }) => ({
    says: `${along} mm along side ${side} is not between its ends: the side is ${length} mm long.`,
    do: "Measure from the side's first corner, and move the corner itself where it is the corner that is off.",
  }),
  offsetTwice: ({ side, along }) => ({
    says: `Side ${side} has two offsets at ${along} mm.`,
    do: "Keep the right one.",
  }),
  offsetsCross: ({ side, x, y }) => ({
    says: `With its wall offsets the outline meets itself near ${corner(x, y)}, on side ${side}.`,
    do: "Check the signs: left of the side, as it runs, is positive.",
  }),
  straightedgeNoLength: ({ x, y }) => ({
    says: `This straightedge begins and ends at the same place (${corner(x, y)}).`,
    do: "Give both of its ends.",
  }),
  manyMarks: ({ found, limit }) => ({
    says: `${found} marks are more than can be adjusted at once; ${limit} is the most.`,
    do: "Split the job, or give coordinates.",
  }),
  looseMark: ({ mark, from, to, ties }) => ({
    says: `Mark "${mark}" hangs loose: its ${ties} ${ties === 1 ? "tie does" : "ties do"} not hold it.`,
    do: `Measure ${from} to ${to}.`,
  }),

  eventTwice: ({ id, first }) => ({
    says: `Two events carry the id ${JSON.stringify(id)}; the first is number ${first + 1}.`,
    do: "Give each event an id of its own.",
  }),
  undoOfNothing: ({ event, nearest }) => ({
    says: `There is no event ${JSON.stringify(event)} to undo.`,
    do: meant(nearest, "Name an event that stands before this one."),
  }),
  undoOfLater: ({ event }) => ({
    says: `Event ${JSON.stringify(event)} comes after this one.`,
    do: "Events are only ever added at the end: put the undo after what it undoes.",
  }),
  undoTwice: ({ event, first }) => ({
    says: `Event ${JSON.stringify(event)} is already undone by ${JSON.stringify(first)}.`,
    do: "Take this undo out.",
  }),
  undoOfUndo: ({ event }) => ({
    says: `Event ${JSON.stringify(event)} is itself an undo.`,
    do: "Enter again what was undone, as a new event.",
  }),
  laidTwice: ({ piece, first }) => ({
    says: `Piece ${JSON.stringify(piece)} is already laid, by event ${JSON.stringify(first)}.`,
    do: "Undo the first, or name the piece that was meant.",
  }),
  brokenWhat: () => ({
    says: "This says neither or both of board and piece.",
    do: "Name what broke: a board, or a piece.",
  }),
  otherJob: ({ found, expected }) => ({
    says: `This was recorded for another job (${found.slice(0, 12)}); the one given is ${expected.slice(0, 12)}.`,
    do: "Give the job file it was recorded with.",
  }),
  otherPlan: ({ found, expected }) => ({
    says: `This was recorded on another plan (${found.slice(0, 12)}); the one given is ${expected.slice(0, 12)}.`,
    do: "Give the plan file the crew worked from.",
  }),
  notInPlan: ({ what, found, nearest }) => ({
    says: `The plan has no ${what} ${found}.`,
    do: meant(nearest, `Check which ${what} was meant on the drawing.`),
  }),
};
