import { nearest } from "../read/nearest.ts";
import type { JsonPath, PathProblem } from "../read/problem.ts";
import type { Job } from "./job.ts";
import type { JobProblems } from "./problems.ts";

type Found = PathProblem<keyof JobProblems & string, JobProblems[keyof JobProblems]>;

/** What a schema cannot say: fields that contradict each other. `incomplete`: part of the file could not be read. */
export function checkJob(job: Job, incomplete = false): Found[] {
  const found: Found[] = [];
  const tell = <C extends keyof JobProblems & string>(path: JsonPath, code: C, data: JobProblems[C]): void => {
    found.push({ path, code, data });
  };
  checkOutline(job, incomplete, tell);
  checkMarks(job, tell);
  checkOrder(job, tell);
  return found;
}

type Tell = <C extends keyof JobProblems & string>(path: JsonPath, code: C, data: JobProblems[C]) => void;

function checkOutline(job: Job, incomplete: boolean, tell: Tell): void {
  const { outline, marks, sides, offsets } = job.site;
  if (outline === null && marks === null) {
    if (!incomplete) tell(["site"], "noOutline", {});
    return;
  }
  if (outline !== null && marks !== null) tell(["site", "marks"], "outlineTwice", {});
  const corners = outline?.length ?? marks!.length;
  if (sides.length !== corners) tell(["site", "sides"], "sidesCount", { sides: sides.length, corners });
  offsets.forEach((offset, i) => {
    if (offset.side >= corners)
      tell(["site", "offsets", i, "side"], "offsetSide", { side: offset.side, sides: corners });
  });
}

function checkMarks(job: Job, tell: Tell): void {
  const marks = job.site.marks;
  if (marks === null) return;
  if (marks.length < 3) tell(["site", "marks"], "fewMarks", { found: marks.length });
  const first = new Map<string, number>();
  marks.forEach((mark, i) => {
    const before = first.get(mark);
    if (before === undefined) first.set(mark, i);
    else tell(["site", "marks", i], "markTwice", { mark, first: before });
  });
  job.survey.ties.forEach(([from, to], i) => {
    for (const [end, mark] of [from, to].entries()) {
      if (first.has(mark)) continue;
      tell(["survey", "ties", i, end], "unknownMark", {
        mark,
        nearest: nearest(mark, marks),
        known: marks.slice(0, 30),
      });
    }
    if (from === to) tell(["survey", "ties", i], "tieToItself", { mark: from });
  });
}

/** Nothing narrower is cut from a board, mm; the set-out leaves it out. */
const NEEDLE_MM = 20;
const LENGTH_AND_GAP = "the longest of board.lengths[].length and gaps.end together";

type NotMore = (path: JsonPath, what: string, found: number, than: string, limit: number) => void;

/**
 * Clip rules no board could keep: then every seam would be made of exceptions. Two clips that stand further apart than
 * the rule allows can have a third between them only where the greatest clear distance is a clip's length or more.
 */
function checkClips(job: Job, longest: number, notMore: NotMore): void {
  const { length, clearMax, measure, endMax, perPiece } = job.clips;
  const at = (key: string): JsonPath => ["clips", key];
  if (measure === "centre")
    notMore(
      at("clearMax"),
      "twice clips.length",
      2 * length,
      "clips.clearMax, measured from centre to centre,",
      clearMax,
    );
  else notMore(at("clearMax"), "clips.length", length, "the clear distance clips.clearMax", clearMax);
  notMore(at("endMax"), "half of clips.length", length / 2, "clips.endMax", endMax);
  // Under a joint a clip holds both ends by what is left of it beside the gap.
  notMore(at("length"), "gaps.end and 4 mm of hold", job.gaps.end + 4, "clips.length", length);
  if (longest === 0) return;
  const than = "the longest of board.lengths[].length";
  if (length > longest) notMore(at("length"), "clips.length", length, than, longest);
  else notMore(at("perPiece"), "the length clips.perPiece clips stand on", (perPiece - 1) * length, than, longest);
}

function checkOrder(job: Job, tell: Tell): void {
  const notMore = (path: JsonPath, what: string, found: number, than: string, limit: number, unit = "mm"): void => {
    if (found > limit) tell(path, "moreThan", { what, found, than, limit, unit });
  };
  const { limits, preparation } = job.base;
  notMore(
    ["base", "limits", "fallMin"],
    "base.limits.fallMin",
    limits.fallMin,
    "base.limits.fallMax",
    limits.fallMax,
    "%",
  );
  notMore(
    ["base", "limits", "fallLocalMin"],
    "base.limits.fallLocalMin",
    limits.fallLocalMin,
    "base.limits.fallMax",
    limits.fallMax,
    "%",
  );
  preparation.materials.forEach((material, i) => {
    const path = ["base", "preparation", "materials", i] as const;
    const at = `base.preparation.materials[${i}]`;
    notMore([...path, "min"], `${at}.min`, material.min, `${at}.max`, material.max);
  });
  const [least, most] = job.gaps.sideRange;
  if (least > most) notMore(["gaps", "sideRange"], "gaps.sideRange[0]", least, "gaps.sideRange[1]", most);
  else if (job.gaps.side < least || job.gaps.side > most) {
    tell(["gaps", "side"], "sideGapOutsideRange", { side: job.gaps.side, least, most });
  }
  const firstOf = new Map<number, number>();
  job.board.lengths.forEach(({ length }, i) => {
    const first = firstOf.get(length);
    if (first === undefined) firstOf.set(length, i);
    else tell(["board", "lengths", i, "length"], "lengthTwice", { length, first });
  });
  const longest = Math.max(0, ...job.board.lengths.map((one) => one.length));
  const { bond, board } = job;
  if (longest > 0) {
    notMore(["bond", "minPiece"], "bond.minPiece", bond.minPiece, "board.lengths[].length", longest);
    notMore(["bond", "stagger"], "bond.stagger", bond.stagger, "board.lengths[].length", longest);
    // In a free bond a joint must keep its distance from two joints of the row below, one board apart.
    if (bond.kind === "free" && bond.stagger <= longest)
      notMore(["bond", "stagger"], "twice bond.stagger", 2 * bond.stagger, LENGTH_AND_GAP, longest + job.gaps.end);
  }
  checkClips(job, longest, notMore);
  if (board.width > 0) {
    notMore(["bond", "minRip"], "bond.minRip", bond.minRip, "board.width", board.width);
    if (bond.firstRow !== null && bond.firstRow < bond.minRip)
      notMore(["bond", "firstRow"], "the least width of any piece", NEEDLE_MM, "bond.firstRow", bond.firstRow);
    if (bond.firstRow !== null)
      notMore(["bond", "firstRow"], "bond.firstRow", bond.firstRow, "board.width", board.width);
  }
}
