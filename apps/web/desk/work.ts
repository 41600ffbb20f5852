import { hashJson } from "../../../core/job/hash.ts";
import { loadJob } from "../../../core/plan/load.ts";
import type { PlanRecord } from "../../../core/plan/record.ts";
import { allFindings } from "../../../core/plan/write.ts";
import type { Problem } from "../../../core/read/problem.ts";
import { type Proved, proveJob } from "../../../desk/prove.ts";
import { rankedFindings } from "../../../papers/ranked.ts";
import { sayer } from "../../../words/say.ts";
import type { Words } from "../../../words/words.ts";
import type { Answer, Ask, Drawing, SaidFinding, SaidProblem, StageSaid } from "./asks.ts";
import { drawLayer } from "./draw.ts";

/** The planner as the worker runs it: keeps the last plan, so that its drawings and papers need no second planning. */
export interface Bench {
  proved: Proved | null;
  words: Words | null;
  /** The text that `proved` is of. */
  text?: string;
}

export function planAsk(
  bench: Bench,
  ask: Ask & { kind: "plan" },
  words: Words,
  onStage: (stage: StageSaid) => void,
): Answer {
  onStage("read");
  const loaded = loadJob(ask.text, ask.file);
  if (!loaded.ok) return { ok: false, problems: loaded.problems.map((problem) => said(problem, words)) };
  const proved = proveJob(loaded.value, words, onStage);
  bench.proved = proved;
  bench.words = words;
  bench.text = ask.text;
  onStage("draw");
  const { record, plan, check } = proved;
  return {
    ok: true,
    record,
    planHash: hashJson(JSON.parse(JSON.stringify(plan))),
    summary: plan.summary,
    proved: check.ok,
    breaches: check.breaches.map(words.sayBreach),
    findings: sayFindings(record, words),
    reasons: sayReasons(record, words),
    drawing: ask.draw && drawLayer(record, words, ask.draw),
  };
}

/** What stands in the way of a file, without planning it. */
export function readAsk(text: string, file: string, words: Words): SaidProblem[] {
  const loaded = loadJob(text, file);
  return loaded.ok ? [] : loaded.problems.map((problem) => said(problem, words));
}

function said(problem: Problem, words: Words): SaidProblem {
  return { code: problem.code, place: problem.place, ...words.sayProblem(problem) };
}

export function drawAsk(bench: Bench, ask: Ask & { kind: "draw" }): Drawing {
  if (!bench.proved || !bench.words) throw new Error("no plan yet");
  return drawLayer(bench.proved.record, bench.words, ask.draw);
}

/** Why the rows and joints lie as they do. */
export function sayReasons({ setout, bond }: PlanRecord, words: Words): string[] {
  return [...setout.reasons, ...bond.reasons].map(sayer(words).reason);
}

/** Every finding, stops first, each with its sentence and the number its kind bears everywhere. */
export function sayFindings(record: PlanRecord, words: Words): SaidFinding[] {
  const numbers = new Map(
    rankedFindings(record).map(({ number, finding }) => [`${finding.level} ${finding.code}`, number]),
  );
  const voice = sayer(words);
  return allFindings(record).map((finding) => ({
    number: numbers.get(`${finding.level} ${finding.code}`)!,
    code: finding.code,
    rule: finding.rule,
    level: finding.level,
    at: finding.at,
    releasedBy: finding.releasedBy,
    ...voice.finding(finding),
  }));
}
