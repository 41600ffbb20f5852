import type { Problem } from "../core/read/problem.ts";
import type { Words } from "../words/words.ts";
import type { Outcome } from "./outcome.ts";

/** The answer to input that cannot be used: every problem with its line, place, and what to do; no files. */
export function refused(problems: readonly Problem[], words: Words): Outcome {
  const said = problems.map((problem) => ({ ...problem, ...words.sayProblem(problem) }));
  return {
    exit: 2,
    lines: [],
    problems: said.map(
      (p) =>
        `${p.file}${p.line > 0 ? `:${p.line}:${p.column}` : ""}${p.place === "" ? "" : ` ${p.place}`}: ${p.says} ${p.do}`,
    ),
    json: {
      problems: said.map(({ code, file, line, column, place, data, says, do: remedy }) => ({
        code,
        file,
        line,
        column,
        place,
        data,
        says,
        do: remedy,
      })),
    },
    files: [],
  };
}
