import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { checkPlan } from "../core/check/check.ts";
import { hashJson } from "../core/job/hash.ts";
import { loadJob } from "../core/plan/load.ts";
import type { PlanFile } from "../core/plan/plan.ts";
import { readProgress } from "../core/progress/read.ts";
import type { ProgressEvent, ProgressFile } from "../core/progress/schema.ts";
import { en } from "../words/en/index.ts";
import { FONT_FILES, type FontBytes } from "../write/font/files.ts";
import { proveJob } from "./plan.ts";
import { resumeFiles } from "./resume.ts";

const fonts = Object.fromEntries(
  Object.entries(FONT_FILES).map(([key, file]) => [
    key,
    new Uint8Array(readFileSync(new URL(`../node_modules/${file}`, import.meta.url))),
  ]),
) as unknown as FontBytes;

type Raw = Record<string, unknown> & { site: { outline: number[][] } };
const OUTLINE = [
  [0, 0],
  [6400, 0],
  [6400, 4200],
  [2400, 4200],
  [2400, 2600],
  [0, 2600],
];
const job = (bond: object, outline = OUTLINE, more: object = {}): Raw => ({
  format: "rowline/job@1",
  title: "Courtyard",
  site: { outline },
  board: { lengths: [{ length: 1500, price: 2140, stock: 200 }], width: 145, rise: 25 },
  bond,
  ...more,
});
const load = (raw: unknown) => {
  const loaded = loadJob(JSON.stringify(raw), "a.job.json");
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  return loaded.value;
};
const plans = new Map<string, PlanFile>();
const planOf = (raw: unknown): PlanFile => {
  const key = JSON.stringify(raw);
  const known = plans.get(key);
  if (known) return known;
  const { plan, check } = proveJob(load(raw), en);
  expect(check.breaches).toEqual([]);
  plans.set(key, plan);
  return plan;
};
type Loose = { kind: string } & Record<string, unknown>;
const events = (list: Loose[]): ProgressEvent[] =>
  list.map((one, i) => ({ id: `e${i}`, when: "2026-05-14T09:30:00Z", by: "Ada", ...one }) as unknown as ProgressEvent);
const lay = (plan: PlanFile, count: number): Loose[] =>
  plan.laying.slice(0, count).map(({ piece }) => ({ kind: "laid", piece }));
const named = (name: string, value: unknown) => ({ name, text: JSON.stringify(value) });
async function resume(raw: unknown, plan: PlanFile, list: Loose[], more: Partial<ProgressFile> = {}) {
  const file = {
    format: "rowline/progress@1",
    job: load(raw).read.hash,
    plan: hashJson(plan),
    events: events(list),
    ...more,
  };
  return resumeFiles(named("a.job.json", raw), named("plan.json", plan), named("p.json", file), en, fonts);
}
type Answer = Awaited<ReturnType<typeof resume>>;
/** The three files of an answer, read back and proved by the checker from themselves alone. */
function proved(answer: Answer): { job: Raw; plan: PlanFile; progress: ProgressFile } {
  expect(answer.problems).toEqual([]);
  const text = (name: string) => answer.files.find((file) => file.name === name)!.bytes as string;
  const loaded = loadJob(text("resumed.job.json"), "resumed.job.json");
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  const plan = JSON.parse(text("plan.json")) as PlanFile;
  const check = checkPlan({ ...loaded.value.read, survey: loaded.value.survey }, plan);
  expect(check.breaches).toEqual([]);
  const read = readProgress(text("progress.json"), "progress.json");
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  expect(read.value).toMatchObject({ job: loaded.value.read.hash, plan: hashJson(plan) });
  return { job: loaded.value.read.raw as Raw, plan, progress: read.value };
}
/** How far each piece that lies is from where the new plan's progress says it is, mm; both orders of corners. */
function worstOff(plan: PlanFile, list: Loose[], next: { plan: PlanFile; progress: ProgressFile }): number {
  let worst = 0;
  const now = new Map(next.progress.events.map((event) => [event.id, event]));
  list.forEach((one, i) => {
    if (one.kind !== "laid") return;
    const event = now.get(`e${i}`);
    const before = plan.pieces.find((piece) => piece.id === one.piece)!;
    const here = next.plan.pieces.find((piece) => event?.kind === "laid" && piece.id === event.piece);
    if (!here) worst = Number.POSITIVE_INFINITY;
    else
      for (const [x, y] of before.ring)
        worst = Math.max(worst, Math.min(...here.ring.map(([p, q]) => Math.max(Math.abs(x - p), Math.abs(y - q)))));
  });
  return worst;
}
const turned = (outline: number[][], cos: number, sin: number): number[][] =>
  outline.map(([x, y]) => [
    Math.round((x! * cos - y! * sin) * 1000) / 1000,
    Math.round((x! * sin + y! * cos) * 1000) / 1000,
  ]);
const WAYS: [string, Raw][] = [
  ["half", job({ kind: "half" })],
  ["third", job({ kind: "third" })],
  ["stack", job({ kind: "stack" })],
  ["free", job({ kind: "free" })],
  ["half, clockwise", job({ kind: "half" }, [...OUTLINE].reverse())],
  ["free, clockwise", job({ kind: "free" }, [...OUTLINE].reverse())],
  ["half at 33 degrees", job({ kind: "half", angle: 33 })],
  ["free at 33 degrees", job({ kind: "free", angle: 33 })],
  ["half on a site at 33 degrees", job({ kind: "half", angle: 33 }, turned(OUTLINE, 0.838670568, 0.544639035))],
  ["half, direction, gap and first row chosen", job({ kind: "half", angle: null }, OUTLINE, { gaps: { sideRange: [4, 6] } })],
];

describe("nothing that lies moves", () => {
  test.each(WAYS)("%s: after none, some and all pieces", async (_name, raw) => {
    const plan = planOf(raw);
    const all = plan.pieces.length;
    for (const count of [0, 1, Math.floor(all / 3), Math.floor((2 * all) / 3), all]) {
      const list = lay(plan, count);
      const answer = await resume(raw, plan, list);
      const next = proved(answer);
      expect(worstOff(plan, list, next)).toBeLessThanOrEqual(0.001);
      expect(next.progress.events).toHaveLength(count);
      expect(next.plan.pieces.map((piece) => piece.ring)).toEqual(plan.pieces.map((piece) => piece.ring));
      if (count === 0) expect(next.job).toEqual(raw);
      if (count === all) expect(answer.lines.join("\n")).toContain("no further board");
    }
  });
});
