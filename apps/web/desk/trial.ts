import { type LoadedJob, loadJob } from "../../../core/plan/load.ts";
import { type Judged, makePlan } from "../../../core/plan/make.ts";
import type { PlanRecord } from "../../../core/plan/record.ts";
import { markUnbeaten, planWay, type Variant, variantOf, waysToSetOut } from "../../../core/plan/variants.ts";
import type { Words } from "../../../words/words.ts";
import { sayReasons } from "./work.ts";

export type TrialAsk =
  /** The job as it would be: drawn while it is moved. */
  | { kind: "live"; text: string; language: string }
  /** Every bond in the likely directions. */
  | { kind: "variants"; text: string; language: string; nowDeg: number };
export type TrialReply =
  | { kind: "trial"; record: PlanRecord; reasons: string[] }
  /** What stands in the way. */
  | { kind: "cannot"; says: string[] }
  /** So far; `left` are still to come. */
  | { kind: "variants"; variants: Variant[]; left: number }
  | { kind: "broken"; detail: string };

/** The last base that was judged, and the job it was judged for, less its bond. */
let known: { key: string; judged: Judged } | null = null;

export function tryOut(ask: TrialAsk, words: Words, say: (reply: TrialReply) => void): void {
  const loaded = loadJob(ask.text, "job");
  if (!loaded.ok) {
    say({ kind: "cannot", says: loaded.problems.map((one) => words.sayProblem(one).says) });
    return;
  }
  if (ask.kind === "live") {
    const record = plan(loaded.value);
    say({ kind: "trial", record, reasons: sayReasons(record, words) });
    return;
  }
  const { judged } = judgedOf(loaded.value);
  const ways = waysToSetOut(loaded.value.survey, ask.nowDeg);
  const found: Variant[] = [];
  ways.forEach((way, i) => {
    found.push(variantOf(planWay(loaded.value, judged, way)));
    say({ kind: "variants", variants: markUnbeaten(found), left: ways.length - i - 1 });
  });
}

function plan(loaded: LoadedJob): PlanRecord {
  const { judged, record } = judgedOf(loaded);
  return record ?? makePlan(loaded, undefined, judged);
}

/** The base is judged once as long as nothing but the bond changes. */
function judgedOf(loaded: LoadedJob): { judged: Judged; record?: PlanRecord } {
  const { bond, ...rest } = loaded.read.job;
  const key = JSON.stringify(rest);
  if (known?.key === key) return { judged: known.judged };
  const record = makePlan(loaded);
  known = { key, judged: { surface: record.surface, preparation: record.preparation } };
  return { judged: known.judged, record };
}
