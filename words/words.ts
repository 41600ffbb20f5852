/** What a language file must hold. Codes and figures come from core/; sentences live here and nowhere else. */
import type { Finding } from "../core/base/finding.ts";
import type { Breach, Excuse } from "../core/check/breach.ts";
import type { FindingData } from "../core/findings.ts";
import type { Problem } from "../core/read/problem.ts";
import type { DeskWords } from "./desk.ts";
import type { DrawingLabels } from "./drawing.ts";
import type { Figures } from "./figures.ts";
import type { PaperWords } from "./papers.ts";

export type { Figures } from "./figures.ts";

/** What was found, and what to do about it: short, in the second person, with the figures. */
export interface Said {
  says: string;
  do: string;
}
export type Sentences<Table> = {
  [C in keyof Table & string]: (data: Table[C], finding: Finding<C, Table[C]>, write: Figures) => Said;
};
export interface Words {
  language: string;
  write: Figures;
  findings: Sentences<FindingData>;
  /** Why the planner chose as it did, by code. */
  reasons: Record<string, (data: Record<string, number | string>, write: Figures) => string>;
  papers: PaperWords;
  drawing: DrawingLabels;
  desk: DeskWords;
  /** What stands in the way of a file being read, and what to do. */
  sayProblem(problem: Problem): Said;
  /** What the checker holds against a plan. */
  sayBreach(breach: Breach): string;
  /** The first line of a plan and of every summary: what is excused, or that nothing is. */
  sayExcused(excused: readonly Excuse[]): string;
}
