import { loadJob } from "../../../core/plan/load.ts";
import { type Judged, tryRows } from "../../../core/plan/make.ts";
import type { PlanRecord } from "../../../core/plan/record.ts";
import { markUnbeaten, planWay, type Variant, variantOf, waysToSetOut } from "../../../core/plan/variants.ts";
import type { Words } from "../../../words/words.ts";
import { sayReasons } from "./work.ts";

/** `judged` is what the page's plan of the same site, survey and base found: a trial changes the bond only. */
export type TrialAsk =
  /** The job as it would be: drawn while it is moved. */
  | { kind: "live"; text: string; language: string; judged: Judged }
  /** Every bond in the likely directions. */
  | { kind: "variants"; text: string; language: string; judged: Judged; nowDeg: number };
export type TrialReply =
  | ({ kind: "trial"; reasons: string[] } & Pick<PlanRecord, "setout" | "bond">)
  /** What stands in the way. */
  | { kind: "cannot"; says: string[] }
  /** So far; `left` are still to come. */
  | { kind: "variants"; variants: Variant[]; left: number }
  | { kind: "broken"; detail: string };

export function tryOut(ask: TrialAsk, words: Words, say: (reply: TrialReply) => void): void {
  const loaded = loadJob(ask.text, "job");
  if (!loaded.ok) {
    say({ kind: "cannot", says: loaded.problems.map((one) => words.sayProblem(one).says) });
    return;
  }
  if (ask.kind === "live") {
    const rows = tryRows(loaded.value, ask.judged);
    say({ kind: "trial", ...rows, reasons: sayReasons(rows, words) });
    return;
  }
  const ways = waysToSetOut(loaded.value.survey, ask.nowDeg);
  const found: Variant[] = [];
  ways.forEach((way, i) => {
    found.push(variantOf(planWay(loaded.value, ask.judged, way)));
    say({ kind: "variants", variants: markUnbeaten(found), left: ways.length - i - 1 });
  });
}
