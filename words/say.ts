import type { Finding } from "../core/base/finding.ts";
import type { Problem } from "../core/read/problem.ts";
import type { Figures, Said, Words } from "./words.ts";

type Sentence<Subject> = (data: unknown, subject: Subject, write: Figures) => Said;

/** A function that says any finding in a language. */
export function sayer(words: Words): (finding: Finding) => Said {
  const sentences = words.findings as Record<string, Sentence<Finding>>;
  return (finding) => sentences[finding.code]!(finding.data, finding, words.write);
}

/** A function that says any problem with a file, from a language's table. */
export function problemSayer(table: object, write: Figures): (problem: Problem) => Said {
  const sentences = table as Record<string, Sentence<Problem>>;
  return (problem) => sentences[problem.code]!(problem.data, problem, write);
}
