import type { Finding } from "../core/base/finding.ts";
import type { Voice } from "../core/plan/write.ts";
import type { Problem } from "../core/read/problem.ts";
import type { Figures, Said, Words } from "./words.ts";

type Sentence<Subject> = (data: unknown, subject: Subject, write: Figures) => Said;

/** A language as the plan file needs it: says any finding and any reason. */
export function sayer(words: Words): Voice {
  const sentences = words.findings as Record<string, Sentence<Finding>>;
  return {
    finding: (finding) => sentences[finding.code]!(finding.data, finding, words.write),
    reason: ({ code, data }) => words.reasons[code]!(data, words.write),
  };
}

/** A function that says any problem with a file, from a language's table. */
export function problemSayer(table: object, write: Figures): (problem: Problem) => Said {
  const sentences = table as Record<string, Sentence<Problem>>;
  return (problem) => sentences[problem.code]!(problem.data, problem, write);
}
