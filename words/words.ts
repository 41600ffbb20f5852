/** What a language file must hold. Codes and figures come from core/; sentences live here and nowhere else. */
import type { Finding } from "../core/base/finding.ts";
import type { Breach, Excuse } from "../core/check/breach.ts";
import type { FindingData } from "../core/findings.ts";
import type { Problem } from "../core/read/problem.ts";
import type { DeskWords } from "./desk.ts";
import type { DrawingLabels } from "./drawing.ts";
import type { PaperWords } from "./papers.ts";

/** What was found, and what to do about it: short, in the second person, with the figures. */
export interface Said {
  says: string;
  do: string;
}
export type Sentences<Table> = {
  [C in keyof Table & string]: (data: Table[C], finding: Finding<C, Table[C]>, write: Figures) => Said;
};
/** How figures are written in a language. Deterministic: no Intl, no locale of the machine. */
export interface Figures {
  /** Whole millimetres, thin space for thousands. */
  mm(mm: number): string;
  /** One decimal: levels, gaps. */
  mm1(mm: number): string;
  /** Square metres with one decimal, from mm2. */
  m2(mm2: number): string;
  number(value: number, decimals: number): string;
  percent(value: number): string;
  money(minor: number, currency: string): string;
}
export interface Words {
  language: string;
  write: Figures;
  findings: Sentences<FindingData>;
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
