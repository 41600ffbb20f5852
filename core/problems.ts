/** Everything that can be wrong with a file read: code to data. A code forgotten in words/ does not compile. */
import type { JobProblems } from "./job/problems.ts";
import type { ProgressProblems } from "./progress/problems.ts";
import type { ReadProblems } from "./read/codes.ts";
import type { SiteProblems } from "./stages/survey/problems.ts";

export type ProblemData = ReadProblems & JobProblems & SiteProblems & ProgressProblems;
