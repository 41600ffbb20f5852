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
  }
  const { clips } = job;
  if (clips.measure === "centre")
    notMore(
      ["clips", "clearMax"],
      "clips.length",
      clips.length,
      "clips.clearMax, measured from centre to centre,",
      clips.clearMax,
    );
  if (board.width > 0) {
    notMore(["bond", "minRip"], "bond.minRip", bond.minRip, "board.width", board.width);
    if (bond.firstRow !== null)
      notMore(["bond", "firstRow"], "bond.firstRow", bond.firstRow, "board.width", board.width);
  }
}
