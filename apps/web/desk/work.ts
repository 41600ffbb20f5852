import { hashJson } from "../../../core/job/hash.ts";
import { type LoadedJob, loadJob } from "../../../core/plan/load.ts";
import { makePlan } from "../../../core/plan/make.ts";
import type { PlanRecord } from "../../../core/plan/record.ts";
import { allFindings } from "../../../core/plan/write.ts";
import type { Problem } from "../../../core/read/problem.ts";
import { type Proved, proveFrom } from "../../../desk/prove.ts";
import { rankedFindings } from "../../../papers/ranked.ts";
import { sayer } from "../../../words/say.ts";
import type { Words } from "../../../words/words.ts";
import type { Answer, Ask, DrawAsk, Drawing, Proof, SaidFinding, SaidProblem, StageSaid } from "./asks.ts";
import { drawLayer } from "./draw.ts";

/** The planner as the worker runs it: keeps the last plan, so that its drawings and papers need no second planning. */
export interface Bench {
  planned: { loaded: LoadedJob; record: PlanRecord; proved: Proved | null } | null;
  words: Words | null;
  /** The text that the plan is of. */
  text?: string;
  /** The last plan with its proof, which is made when first asked for. */
  readonly proved: Proved | null;
}

export function newBench(): Bench {
  return {
    planned: null,
    words: null,
    get proved() {
      const { planned, words } = this;
      if (!planned || !words) return null;
      planned.proved ??= proveFrom(planned.loaded, planned.record, words);
      return planned.proved;
    },
  };
}

/** Plans and draws: what the eye waits for. The proof comes after (`proofAsk`). */
export function planAsk(
  bench: Bench,
  ask: Ask & { kind: "plan" },
  words: Words,
  onStage: (stage: StageSaid) => void,
): Answer {
  onStage("read");
  const loaded = loadJob(ask.text, ask.file);
  if (!loaded.ok) return { ok: false, problems: loaded.problems.map((problem) => said(problem, words)) };
  const record = makePlan(loaded.value, onStage);
  bench.planned = { loaded: loaded.value, record, proved: null };
  bench.words = words;
  bench.text = ask.text;
  onStage("draw");
  return answerOf(record, words, ask.draw);
}

function answerOf(record: PlanRecord, words: Words, draw: DrawAsk | null): Answer {
  return {
    ok: true,
    record,
    ...UNPROVED,
    findings: sayFindings(record, words),
    reasons: sayReasons(record, words),
    drawing: draw && drawLayer(record, words, draw),
  };
}

/** Where the first plan did not stand and another did: that one takes its place. Null where the first stands. */
export function replacedAsk(bench: Bench, draw: DrawAsk | null): Answer | null {
  const { planned, proved, words } = bench;
  if (!planned || !proved || !words || proved.record === planned.record) return null;
  planned.record = proved.record;
  return answerOf(proved.record, words, draw);
}

const UNPROVED: Proof = { checked: false, proved: false, summary: "", breaches: [], planHash: "" };

/** Holds the last plan against the checker. */
export function proofAsk(bench: Bench): Proof | null {
  const { proved, words } = bench;
  if (!proved || !words) return null;
  const { plan, check } = proved;
  return {
    checked: true,
    proved: check.ok,
    summary: plan.summary,
    breaches: check.breaches.map(words.sayBreach),
    planHash: hashJson(JSON.parse(JSON.stringify(plan))),
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
  if (!bench.planned || !bench.words) throw new Error("no plan yet");
  return drawLayer(bench.planned.record, bench.words, ask.draw);
}

/** Why the rows and joints lie as they do. */
export function sayReasons({ setout, bond }: Pick<PlanRecord, "setout" | "bond">, words: Words): string[] {
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
