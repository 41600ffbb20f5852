import type { Breach, BreachCode } from "../../core/check/breach.ts";
import type { Figures } from "../words.ts";

/** What the checker holds against a plan: one sentence a breach, with place and figures. */
export function sayBreach(breach: Breach, write: Figures): string {
  const where = breach.at ? ` At x ${write.mm(breach.at[0])}, y ${write.mm(breach.at[1])}.` : "";
  return `${sentences[breach.code](breach, write)}${where}`;
}

/** The first line of a plan's summary: what is excused. */
export function sayExcused(excused: readonly { breach: Breach }[], write: Figures): string {
  const n = excused.length;
  if (n === 0) return "Every rule holds; nothing is excused.";
  const counts = new Map<string, number>();
  for (const { breach } of excused) counts.set(breach.rule, (counts.get(breach.rule) ?? 0) + 1);
  const parts = [...counts]
    .sort((a, b) => (a[0] < b[0] ? -1 : 1))
    .map(([rule, count]) => `${ruleNames[rule] ?? rule} ${write.number(count, 0)}`);
  return `${write.number(n, 0)} ${n === 1 ? "place breaks" : "places break"} a rule and ${n === 1 ? "is" : "are"} excused, each named in the findings: ${parts.join(", ")}.`;
}

const ruleNames: Record<string, string> = {
  cover: "bare place",
  bond: "joint off the bond",
  stagger: "stagger",
  minPiece: "short piece",
  minRip: "narrow piece",
  clips: "clips",
  clipEnd: "clip too far from an end",
  clipSpacing: "clip spacing",
  jointClip: "joint without its clip",
  endClip: "row end without a clip",
  slabEdge: "near the slab's edge",
  baseJoint: "near a base joint",
  oneEdge: "edge held by nothing",
  captive: "captive piece",
};

const text = (value: string | number | undefined | null): string => String(value ?? "");
const of = (b: Breach, key: string): string => text(b.data[key]);
const mm = (value: string | number | null, write: Figures): string =>
  typeof value === "number" ? `${write.number(value, 1)} mm` : text(value);
const rowOf = (b: Breach): string => `Row ${Number(b.data.row ?? 0) + 1}`;

const sentences: Record<BreachCode, (b: Breach, write: Figures) => string> = {
  jobHash: () => "The plan was made from another job. Plan this job again.",
  frameAngle: (b, w) =>
    `The rows run at ${w.number(Number(b.found), 3)} degrees; the job asks for ${w.number(Number(b.limit), 3)}.`,
  notFinite: (b) => `A figure in ${of(b, "place")} cannot be measured.`,
  idRepeated: (b) => `The name ${of(b, "id")} stands twice in ${of(b, "list")}.`,
  idUnknown: (b) => `${of(b, "list")} names ${of(b, "id")}, which the plan does not have.`,
  outOfOrder: (b) => `${of(b, "list")} are not in order of row, then place: ${text(b.found)}.`,
  rowMissing: (b) => `Row ${Number(b.data.row) + 1} is missing from the rows.`,
  rowStrip: (b, w) => `${rowOf(b)} is ${mm(b.found, w)} wide; a board is ${mm(b.limit, w)}.`,
  rowGap: (b, w) =>
    `The gap below row ${Number(b.data.row) + 1} is ${mm(b.found, w)}; it may be ${of(b, "least")} to ${of(b, "most")} mm, the same everywhere.`,
  rowPieces: (b) => `${rowOf(b)} lists ${text(b.found)} pieces; ${text(b.limit)} lie in it.`,
  firstRow: (b, w) => `The first row is ${mm(b.found, w)} wide; the job asks for ${mm(b.limit, w)}.`,
  ringNotSimple: (b) => `The outline of ${of(b, "piece")} crosses itself.`,
  ringNotRounded: (b) => `The outline of ${of(b, "piece")} is not in thousandths of a millimetre.`,
  pieceExtent: (b, w) => `${of(b, "piece")} is said to measure ${mm(b.found, w)}; it measures ${mm(b.limit, w)}.`,
  pieceOutsideStrip: (b, w) => `${of(b, "piece")} reaches ${mm(b.found, w)} out of its row.`,
  spanDivided: (b, w) =>
    `${rowOf(b)}: ${mm(b.found, w)} could be one piece and is cut between ${of(b, "left")} and ${of(b, "right")}.`,
  cutoutEnclosed: (b) =>
    `${of(b, "piece")} closes round "${of(b, "cutout")}", which is not flush. A board cannot be threaded over it.`,
  outsideField: (b) => `${of(b, "piece") || "A piece"} reaches out of the field.`,
  overlap: (b) => `${of(b, "piece")} lies on ${of(b, "other")}.`,
  uncovered: (b, w) => `${w.number(Number(b.data.areaMm2), 0)} mm² stay bare and no finding names the place.`,
  pieceShort: (b, w) => `${of(b, "piece")} is ${mm(b.found, w)} long; ${mm(b.limit, w)} is the least beside a joint.`,
  pieceNarrow: (b, w) => `${of(b, "piece")} is ${mm(b.found, w)} wide; ${mm(b.limit, w)} is the least.`,
  webThin: (b, w) =>
    `${of(b, "piece")} leaves a web of ${mm(b.found, w)} beside "${of(b, "cutout")}"; ${mm(b.limit, w)} is the least.`,
  endGap: (b, w) =>
    `The gap between ${of(b, "left")} and ${of(b, "right")} is ${mm(b.found, w)}; it should be ${mm(b.limit, w)}.`,
  jointMissing: (b) => `The joint between ${of(b, "left")} and ${of(b, "right")} is not listed.`,
  jointTwice: (b) => `The joint between ${of(b, "left")} and ${of(b, "right")} is listed twice.`,
  jointNoPair: (b) => `A joint is listed between ${of(b, "left")} and ${of(b, "right")}, which do not meet there.`,
  jointMiddle: (b, w) =>
    `The joint between ${of(b, "left")} and ${of(b, "right")} is listed at ${mm(b.found, w)}; its middle is at ${mm(b.limit, w)}.`,
  bondLength: (b) => `The bond (${text(b.found)}) is not that of the job, or not of a board that can be had.`,
  bondShift: (b, w) => `The bond lies ${mm(b.found, w)} off the shift the job asks for.`,
  offLattice: (b, w) => `${rowOf(b)}: a joint lies ${mm(b.found, w)} off the bond and no finding says why.`,
  latticeSkipped: (b) => `${rowOf(b)}: the bond has a joint here and the row has none.`,
  stagger: (b, w) =>
    `Joints of rows ${Number(b.data.other) + 1} and ${Number(b.data.row) + 1} are ${mm(b.found, w)} apart; ${mm(b.limit, w)} is the least.`,
  boardMissing: (b) => `${of(b, "piece")} is not on the board it names.`,
  boardTwice: (b) => `${of(b, "piece")} is cut twice; the second time from ${of(b, "board")}.`,
  boardLength: (b, w) => `${of(b, "board")} is ${mm(b.found, w)} long; no such board can be had.`,
  boardStock: (b, w) =>
    `${text(b.found)} boards of ${w.mm(Number(b.data.length))} mm are used; ${text(b.limit)} are at hand.`,
  boardEmpty: (b) => `Nothing is cut from ${of(b, "board")}.`,
  partOutside: (b) => `${of(b, "piece")} reaches over the end or edge of ${of(b, "board")}.`,
  partShape: (b) => `${of(b, "piece")} as cut from ${of(b, "board")} does not have its shape.`,
  partTurned: (b) => `${of(b, "piece")} is turned on ${of(b, "board")}, and this board may not be.`,
  partEnd: (b) => `${of(b, "piece")} is said to keep a factory end that ${of(b, "board")} does not give it.`,
  partKerf: (b, w) =>
    `${of(b, "piece")} and ${of(b, "other")} lie ${mm(b.found, w)} apart on ${of(b, "board")}; the saw takes ${mm(b.limit, w)}.`,
  partOverlap: (b) => `${of(b, "piece")} and ${of(b, "other")} overlap on ${of(b, "board")}.`,
  offcutTaken: (b) => `What ${of(b, "board")} is said to leave over is not left.`,
  grooveMissing: (b) => `${of(b, "piece")} needs a groove where its board has none.`,
  edgeClaim: (b) => `An edge of ${of(b, "piece")} is called ${of(b, "claim")} and is not.`,
  boundTooHigh: (b) => `At least ${text(b.found)} boards are claimed; ${text(b.limit)} are proved.`,
  boundCheats: () => "The proof of the least number of boards does not hold.",
  figure: (b) => `The figure ${of(b, "figure")} is ${text(b.found)}; counted again it is ${text(b.limit)}.`,
  clipOffSeam: (b, w) => `Clip ${of(b, "clip")} stands ${mm(b.found, w)} beside the middle of its gap.`,
  clipKind: (b) => `Clip ${of(b, "clip")} is called ${text(b.found)}; by what it holds it is ${text(b.limit)}.`,
  clipHolds: (b) => `What clip ${of(b, "clip")} is said to hold is not what it holds: ${of(b, "piece")}.`,
  clipCount: (b) =>
    `The ${of(b, "edge")} edge of ${of(b, "piece")} has ${text(b.found)} clips; it needs ${text(b.limit)}.`,
  clipEnd: (b, w) =>
    `The nearest clip to an end of ${of(b, "piece")} stands ${mm(b.found, w)} off; ${mm(b.limit, w)} is allowed.`,
  clipSpacing: (b, w) => `Two clips of ${of(b, "piece")} stand ${mm(b.found, w)} apart; ${mm(b.limit, w)} is allowed.`,
  clipTooClose: (b, w) =>
    `Clips ${of(b, "other")} and ${of(b, "clip")} are ${mm(b.found, w)} apart, one through the other.`,
  clipPlay: (b, w) => `Clip ${of(b, "clip")} may not move by ${mm(b.found, w)}.`,
  jointClip: (b) =>
    `The joint between ${of(b, "left")} and ${of(b, "right")} has no clip on its ${of(b, "edge")} edge.`,
  endClipMissing: (b) => `${rowOf(b)} has no end clip at its ${of(b, "end")} end.`,
  endClipPlace: (b) => `End clip ${of(b, "clip")} is not within one clip length of an end of its row.`,
  noDrill: (b) => `${of(b, "clip")} is drilled in the area "${of(b, "area")}", where nothing may be.`,
  slabEdge: (b, w) =>
    `Clip ${of(b, "clip")} is drilled ${mm(b.found, w)} from the slab's free edge; ${mm(b.limit, w)} is the least.`,
  baseJoint: (b, w) =>
    `Clip ${of(b, "clip")} is drilled ${mm(b.found, w)} from a joint of the base; ${mm(b.limit, w)} is the least.`,
  heldByScrews: (b) =>
    `The ${of(b, "edge")} edge of ${of(b, "piece")} is said to be held by screws, or is not and has some: ${text(b.found)}.`,
  screwRoom: (b, w) =>
    `A screw in ${of(b, "piece")} has ${mm(b.found, w)} to the edge; ${mm(b.limit, w)} is the least.`,
  heldByTrim: (b) => `The ${of(b, "edge")} edge of ${of(b, "piece")} is not under a trim along its whole length.`,
  heldByClips: (b) =>
    `The ${of(b, "edge")} edge of ${of(b, "piece")}: what holds it (${text(b.found)}) and its clips disagree.`,
  oneEdge: (b) => `Nothing holds the ${of(b, "edge")} edge of ${of(b, "piece")} and no finding says so.`,
  laidTwice: (b) => `${of(b, "piece")} is laid twice.`,
  notLaid: (b) => `${of(b, "piece")} is never laid.`,
  clipNotSet: (b) => `Clip ${of(b, "clip")} is never set.`,
  clipSetTwice: (b) => `Clip ${of(b, "clip")} is set twice.`,
  clipCovered: (b) => `Clip ${of(b, "clip")} is set after ${of(b, "piece")} covers its place.`,
  stepNumber: (b) => `Step ${text(b.found)} should be step ${text(b.limit)}.`,
  captive: (b) => `${of(b, "piece")} cannot be moved in: ${of(b, "by")} is in the way.`,
  takeoffMissing: (b) => `The order has no ${of(b, "item")}; ${text(b.limit)} are needed.`,
  takeoffNeed: (b) => `The order counts ${text(b.found)} ${of(b, "item")}; ${text(b.limit)} are drawn.`,
  takeoffSpare: (b) => `The order has ${text(b.found)} spare ${of(b, "item")}; the job asks for ${text(b.limit)}.`,
  takeoffOwned: (b) =>
    `The order takes ${text(b.found)} ${of(b, "item")} from your yard; the job gives it ${text(b.limit)} to take.`,
  takeoffPack: (b) =>
    `The order buys ${text(b.found)} ${of(b, "item")} for ${text(b.limit)}: not whole packs, too few, or a pack too many.`,
  takeoffPrice: (b) => `The order prices ${of(b, "item")} at ${text(b.found)}; the job says ${text(b.limit)}.`,
  trimMissing: (b) => `The trim of side ${of(b, "side")} is missing or cannot be cut from one length.`,
  baseMissing: () => "There are levels to judge the base by, or none, and the plan says otherwise.",
  plane: (b, w) =>
    `The base is said to fall ${w.percent(Number(b.found))}; fitted again it falls ${w.percent(Number(b.limit))}.`,
  zone: (b, w) => `The minimum zone is said to be ${mm(b.found, w)} to each side; its proof gives ${mm(b.limit, w)}.`,
  straightedge: (b, w) => `The largest gap is said to be ${mm(b.found, w)}; the readings alone show ${mm(b.limit, w)}.`,
  verdict: (b) =>
    `The base is judged "${text(b.found)}"; its ${of(b, "why")} allows no better than "${text(b.limit)}".`,
  confirmation: (b) => `Nothing stops drilling though ${of(b, "hidden")} is ${text(b.found)} and nobody has confirmed.`,
  summaryLine: (b) => `The plan's first line does not say that ${text(b.limit)} places are excused.`,
};
