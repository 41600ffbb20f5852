import { hashJson } from "../../../core/job/hash.ts";
import { loadJob } from "../../../core/plan/load.ts";
import { PROGRESS_FORMAT } from "../../../core/progress/schema.ts";
import { planText } from "../../../desk/papers.ts";
import { proveJob } from "../../../desk/prove.ts";
import { resumeProved } from "../../../desk/resume.ts";
import type { Words } from "../../../words/words.ts";
import type { Ask, ResumedSaid, StageSaid } from "./asks.ts";
import type { Bench } from "./work.ts";

/** Plans on from what is laid. The plan worked from is the last one where it is of the same job, else made again. */
export function resumeAsk(
  bench: Bench,
  ask: Ask & { kind: "resume" },
  words: Words,
  onStage: (stage: StageSaid) => void,
): ResumedSaid {
  let from = bench.text === ask.text ? bench.proved : null;
  if (!from) {
    const loaded = loadJob(ask.text, "job");
    if (!loaded.ok) return { ok: false, lines: loaded.problems.map((problem) => words.sayProblem(problem).says) };
    from = proveJob(loaded.value, words, onStage);
  }
  const { plan, record } = from;
  const progress = {
    format: PROGRESS_FORMAT,
    job: record.jobHash,
    plan: hashJson(JSON.parse(JSON.stringify(plan))),
    events: ask.events,
  };
  const result = resumeProved(
    { name: "job", text: ask.text },
    { name: "plan", text: planText(plan) },
    { name: "progress", text: JSON.stringify(progress) },
    words,
    onStage,
  );
  if (!result.ok) return { ok: false, lines: result.refusal.problems };
  const { proved, jobText, progress: next, lines, stop, answer } = result.value;
  return {
    ok: true,
    text: jobText,
    changed: answer.resume.changed,
    planHash: next.plan,
    events: next.events,
    proved: proved.check.ok,
    stop,
    // The first line is a heading.
    lines: lines.slice(1),
  };
}
