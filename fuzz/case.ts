/** One case: a random job, spoilt, planned and proved; and what is wrong with how that ended. */
import { LIMITS } from "../core/base/limits.ts";
import { loadJob } from "../core/plan/load.ts";
import { makePlan } from "../core/plan/make.ts";
import { writePapers } from "../desk/papers.ts";
import { proveJob } from "../desk/plan.ts";
import { refused } from "../desk/problems.ts";
import { chance, randomJob } from "../fixtures/random.ts";
import { en } from "../words/en/index.ts";
import type { FontBytes } from "../write/font/files.ts";
import { spoilJob } from "./spoil.ts";

export type Ended = "planned" | "stop" | "refused";
export interface CaseResult {
  ended: Ended;
  /** Codes of the problems it was refused for. */
  codes: string[];
  /** What is wrong with this ending; empty as it should be. */
  defects: string[];
}

export function jobText(seed: number): { text: string; wild: number } {
  const c = chance(seed ^ 0x2545f491);
  const job = randomJob(seed);
  // three in four are small, so that many cases cost little; the last keeps the sizes of real terraces
  if (!c.once(4)) job.site = shrunk(job.site, c.pick([0.2, 0.35, 0.5]));
  return spoilJob(job, c);
}

/** Runs case `seed`. With fonts every paper is written too. Throws what the program throws: that is a defect. */
export async function runCase(seed: number, fonts: FontBytes | null = null): Promise<CaseResult> {
  const { text } = jobText(seed);
  const read = loadJob(text, "job.json");
  if (!read.ok) return judgeRefusal(read.problems);
  const proved = proveJob(read.value, en);
  const defects = proved.check.breaches.map((b) => `unproved: ${b.code} found ${b.found} limit ${b.limit}`).slice(0, 5);
  const bad = notFinite(proved.plan, "plan");
  if (bad !== null) defects.push(`not a number: ${bad}`);
  if (seed % 50 === 0 && JSON.stringify(makePlan(read.value)) !== JSON.stringify(proved.record))
    defects.push("a second run differs");
  if (fonts) await writePapers(proved.record, proved.plan, en, fonts);
  const stop = proved.plan.findings.some((finding) => finding.level === "stop");
  return { ended: stop ? "stop" : "planned", codes: [], defects };
}

/** Every ring and line of a site drawn smaller about the frame's origin; bulges and figures stay. */
function shrunk(site: unknown, by: number): unknown {
  const visit = (value: unknown): unknown => {
    if (!Array.isArray(value))
      return typeof value === "object" && value !== null
        ? Object.fromEntries(Object.entries(value).map(([key, child]) => [key, visit(child)]))
        : value;
    if (typeof value[0] === "number")
      return value.map((n: number, i) => (i < 2 ? Math.round(n * by * 1000) / 1000 : n));
    return value.map(visit);
  };
  return visit(site);
}

export function judgeRefusal(problems: Parameters<typeof refused>[0]): CaseResult {
  const outcome = refused(problems, en);
  const defects: string[] = [];
  if (problems.length === 0) defects.push("refused without a problem");
  if (problems.length > LIMITS.problems + 1) defects.push(`${problems.length} problems listed`);
  outcome.problems.forEach((line, i) => {
    const code = problems[i]!.code;
    if (code !== "moreProblems" && !/^job\.json:[1-9]\d*:[1-9]\d* ?.*: \S/s.test(line))
      defects.push(`no place: ${line.slice(0, 120)}`);
    if (/undefined|\[object|NaN(?!")/.test(line.replace(/Found:.*|Found .*;|NaN is beyond|"[^"]*"/gs, "")))
      defects.push(`odd sentence: ${line.slice(0, 200)}`);
  });
  return { ended: "refused", codes: [...new Set(problems.map((one) => one.code))], defects };
}

function notFinite(value: unknown, place: string): string | null {
  if (typeof value === "number") return Number.isFinite(value) ? null : place;
  if (typeof value !== "object" || value === null) return value === undefined ? place : null;
  for (const [key, child] of Object.entries(value)) {
    const bad = notFinite(child, `${place}.${key}`);
    if (bad !== null) return bad;
  }
  return null;
}
