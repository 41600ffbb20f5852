import type { PlanFile } from "../plan/plan.ts";
import { nearest } from "../read/nearest.ts";
import type { JsonPath, PathProblem } from "../read/problem.ts";
import type { ProgressProblems } from "./problems.ts";
import type { ProgressFile } from "./schema.ts";

type What = ProgressProblems["notInPlan"]["what"];

/** A progress file held against the job and plan it says it belongs to: hashes, and every id it names. O(events + plan). */
export function checkAgainstPlan(
  progress: ProgressFile,
  plan: PlanFile,
  hashes: { job: string; plan: string },
  jobSides: number,
): PathProblem[] {
  const found: PathProblem[] = [];
  const tell = <C extends keyof ProgressProblems & string>(
    path: JsonPath,
    code: C,
    data: ProgressProblems[C],
  ): void => {
    found.push({ path, code, data });
  };
  if (progress.job !== hashes.job) tell(["job"], "otherJob", { found: progress.job, expected: hashes.job });
  if (progress.plan !== hashes.plan) tell(["plan"], "otherPlan", { found: progress.plan, expected: hashes.plan });
  const pieces = new Set(plan.pieces.map((piece) => piece.id));
  const boards = new Set(plan.boards.map((board) => board.id));
  const clips = new Set(plan.clips.map((clip) => clip.id));
  const joints = new Set(plan.joints.map((joint) => joint.pieces.join(" ")));
  const named = (path: JsonPath, what: What, id: string, known: ReadonlySet<string>): void => {
    if (!known.has(id)) tell(path, "notInPlan", { what, found: id, nearest: nearest(id, [...known].slice(0, 5000)) });
  };
  progress.events.forEach((event, i) => {
    const at = ["events", i];
    if (event.kind === "laid") named([...at, "piece"], "piece", event.piece, pieces);
    else if (event.kind === "hole") named([...at, "clip"], "clip", event.clip, clips);
    else if (event.kind === "gap") {
      const [a, b] = event.joint;
      if (!joints.has(`${a} ${b}`) && !joints.has(`${b} ${a}`)) named([...at, "joint"], "joint", `${a} ${b}`, joints);
    } else if (event.kind === "broken") {
      if (event.board !== undefined) named([...at, "board"], "board", event.board, boards);
      if (event.piece !== undefined) named([...at, "piece"], "piece", event.piece, pieces);
    } else if (event.kind === "line" && !plan.rows.some((row) => row.row === event.row)) {
      tell([...at, "row"], "notInPlan", { what: "row", found: String(event.row), nearest: null });
    } else if (event.kind === "wall" && event.side >= jobSides) {
      tell([...at, "side"], "notInPlan", { what: "side", found: String(event.side), nearest: null });
    }
  });
  return found;
}
