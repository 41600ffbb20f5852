import { loadJob } from "../core/plan/load.ts";
import { prepareBase } from "../core/stages/preparation/preparation.ts";
import { judgeSurface } from "../core/stages/surface/surface.ts";
import { sayer } from "../words/say.ts";
import type { Words } from "../words/words.ts";
import type { NamedText, Outcome } from "./outcome.ts";
import { refused } from "./problems.ts";

/** `rowline base`: the verdict on the base and how to make it right, without planning the rest. */
export function judgeBase(job: NamedText, words: Words): Outcome {
  const loaded = loadJob(job.text, job.name);
  if (!loaded.ok) return refused(loaded.problems, words);
  const { read, survey } = loaded.value;
  const { surface, findings } = judgeSurface(read.job, survey);
  const preparation = prepareBase(read.job, survey, { surface, findings });
  const said = [...survey.findings, ...findings, ...preparation.findings].map((finding) => ({
    ...finding,
    ...sayer(words).finding(finding),
  }));
  const lines = surface ? words.desk.base(surface, preparation, read.job, words.write) : [words.desk.noBase];
  return {
    exit: said.some((finding) => finding.level === "stop") ? 3 : 0,
    lines: [...lines, ...said.map((finding) => `${words.desk.level[finding.level]}: ${finding.says} ${finding.do}`)],
    problems: [],
    json: { base: surface, preparation: preparation.options, chosen: preparation.chosen, findings: said },
    files: [],
  };
}
