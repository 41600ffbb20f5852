import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import { checkPlan } from "../core/check/check.ts";
import { hashJson } from "../core/job/hash.ts";
import { loadJob } from "../core/plan/load.ts";
import type { PlanFile } from "../core/plan/plan.ts";
import { readProgress } from "../core/progress/read.ts";
import type { ProgressEvent, ProgressFile } from "../core/progress/schema.ts";
import { en } from "../words/en/index.ts";
import { FONT_FILES, type FontBytes } from "../write/font/files.ts";
import type { Outcome } from "./outcome.ts";
import { planText } from "./papers.ts";
import { proveJob } from "./plan.ts";
import { resumeFiles, resumeProved } from "./resume.ts";

const { resolve } = createRequire(import.meta.url);
const bytesOf = (paths: readonly string[]) => paths.map((path) => new Uint8Array(readFileSync(resolve(path))));
const fonts: FontBytes = { regular: bytesOf(FONT_FILES.regular), bold: bytesOf(FONT_FILES.bold) };

type Raw = Record<string, unknown> & { site: { outline: number[][] } };
const OUTLINE = [
  [0, 0],
  [4700, 0],
  [4700, 1600],
  [2400, 1600],
  [2400, 1000],
  [0, 1000],
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
function files(raw: unknown, plan: PlanFile, list: Loose[], more: Partial<ProgressFile>) {
  const file = {
    format: "rowline/progress@1",
    job: load(raw).read.hash,
    plan: hashJson(plan),
    events: events(list),
    ...more,
  };
  return [named("a.job.json", raw), named("plan.json", plan), named("p.json", file)] as const;
}
const withPapers = (raw: unknown, plan: PlanFile, list: Loose[]): Promise<Outcome> =>
  resumeFiles(...files(raw, plan, list, {}), en, fonts);
/** As `withPapers`, without them: papers take most of the time and nothing here looks at them. */
function resume(raw: unknown, plan: PlanFile, list: Loose[], more: Partial<ProgressFile> = {}): Outcome {
  const result = resumeProved(...files(raw, plan, list, more), en);
  if (!result.ok) return result.refusal;
  const { proved: now, jobText, progress, lines, stop, answer } = result.value;
  expect(now.check.breaches).toEqual([]);
  return {
    exit: stop ? 3 : 0,
    lines,
    problems: [],
    json: answer,
    files: [
      { name: "resumed.job.json", bytes: jobText },
      { name: "plan.json", bytes: planText(now.plan) },
      { name: "progress.json", bytes: JSON.stringify(progress) },
    ],
  };
}
type Answer = Outcome;
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
  [
    "half, direction, gap and first row chosen",
    job({ kind: "half", angle: null }, OUTLINE, { gaps: { sideRange: [4, 6] } }),
  ],
];

describe("nothing that lies moves", () => {
  test.each(WAYS)("%s: after none, some and all pieces", (_name, raw) => {
    const plan = planOf(raw);
    const all = plan.pieces.length;
    for (const count of [0, Math.floor(all / 2), all]) {
      const list = lay(plan, count);
      const answer = resume(raw, plan, list);
      const next = proved(answer);
      expect(worstOff(plan, list, next)).toBeLessThanOrEqual(0.001);
      expect(next.progress.events).toHaveLength(count);
      // in a fixed bond the rest stays too; free joints of rows not begun are chosen again
      if (plan.bond.kind !== "free" || count === all)
        expect(next.plan.pieces.map((piece) => piece.ring)).toEqual(plan.pieces.map((piece) => piece.ring));
      if (count === 0) expect(next.job).toEqual(raw);
      if (count === all) expect(answer.lines.join("\n")).toContain("no further board");
    }
  });

  test("with every paper; row cards only for rows that are not finished", async () => {
    const raw = job({ kind: "half" });
    const plan = planOf(raw);
    const list = lay(plan, Math.floor(plan.pieces.length / 2));
    const answer = await withPapers(raw, plan, list);
    proved(answer);
    const done = new Set(doneOf(answer));
    expect(done.size).toBeGreaterThan(0);
    const cards = answer.files.flatMap(({ name }) => /^card-(\d+)-\d+(-\d+)?\.svg$/.exec(name)?.[1] ?? []).map(Number);
    expect(new Set(cards)).toEqual(new Set(plan.rows.filter(({ row }) => !done.has(row)).map(({ row }) => row + 1)));
  });

  test("resumed again from its own three files it stays where it is", () => {
    for (const raw of [job({ kind: "half" }), job({ kind: "free" })]) {
      const plan = planOf(raw);
      const list = lay(plan, 7);
      const first = proved(resume(raw, plan, list));
      const more = [...first.progress.events] as unknown as Loose[];
      const next = proved(resume(first.job, first.plan, more));
      expect(next.plan.pieces.map((piece) => piece.ring)).toEqual(first.plan.pieces.map((piece) => piece.ring));
      expect(next.progress.events).toHaveLength(7);
    }
  });
});

describe("what is wrong is told of with its place, and nothing is written", () => {
  const raw = job({ kind: "half" });
  test("a wrong plan hash and an unknown piece, both at once", () => {
    const plan = planOf(raw);
    const answer = resume(raw, plan, [...lay(plan, 1), { kind: "laid", piece: "p9999" }], { plan: "1".repeat(64) });
    expect(answer.exit).toBe(2);
    expect(answer.files).toEqual([]);
    expect(answer.problems).toHaveLength(2);
    expect(answer.problems[0]).toMatch(/^p\.json:1:\d+ plan: .*another plan/);
    expect(answer.problems[1]).toMatch(/^p\.json:1:\d+ events\[1\]\.piece: The plan has no piece p9999/);
  });
  test("problems of all three files come together", async () => {
    const bad = (name: string) => ({ name, text: '{"format":' });
    const answer = await resumeFiles(bad("a"), bad("b"), bad("c"), en, fonts);
    expect(answer.exit).toBe(2);
    for (const name of ["a:1:", "b:1:", "c:1:"])
      expect(
        answer.problems.some((line) => line.startsWith(name)),
        name,
      ).toBe(true);
  });
  test("a plan of another job is named in the plan file", () => {
    const plan = planOf(raw);
    const answer = resume({ ...raw, title: "Other" }, plan, []);
    expect(answer.exit).toBe(2);
    expect(answer.problems[0]).toMatch(/^plan\.json:1:\d+ job: /);
  });
});

describe("boards and lengths at hand", () => {
  test("a spoilt board leaves the stock and is needed again; an offcut saves a board", () => {
    const raw = job({ kind: "half" });
    const plan = planOf(raw);
    const list = lay(plan, 6);
    const laid = new Set(list.map((one) => one.piece));
    const spare = plan.boards.find((board) => !board.parts.some((part) => laid.has(part.piece)))!;
    const before = resume(raw, plan, list);
    const after = resume(raw, plan, [...list, { kind: "broken", board: spare.id }]);
    const stock = (answer: Answer) => (proved(answer).job.board as { lengths: { stock: number }[] }).lengths[0]!.stock;
    expect([stock(before), stock(after)]).toEqual([200, 199]);
    expect(neededOf(after)).toBe(neededOf(before));
    expect(after.lines.join("\n")).toContain(`board ${spare.id}`);
    const untouched = plan.boards.filter((board) => !board.parts.some((part) => laid.has(part.piece))).length;
    expect(neededOf(before)).toBeLessThanOrEqual(untouched);
    const cut = resume(raw, plan, [
      ...list,
      { kind: "offcut", length: 1490, width: 145 },
      { kind: "offcut", length: 1490, width: 145 },
    ]);
    expect(neededOf(cut)).toBeLessThan(neededOf(before));
    expect(cut.lines.join("\n")).toContain("From lengths at hand");
  });
  test("a piece spoilt after it was laid lies no more, and may be laid again", () => {
    const raw = job({ kind: "half" });
    const plan = planOf(raw);
    const list = lay(plan, 4);
    const spoilt = { kind: "broken", piece: list[2]!.piece };
    expect(proved(resume(raw, plan, [...list, spoilt])).progress.events.map(({ id }) => id)).toEqual([
      "e0",
      "e1",
      "e3",
    ]);
    const again = proved(resume(raw, plan, [...list, spoilt, list[2]!]));
    expect(again.progress.events.map(({ id }) => id)).toEqual(["e0", "e1", "e3", "e5"]);
  });
  test("a spoilt piece cut from a board that lies is cut again from elsewhere", () => {
    const raw = job({ kind: "half" });
    const plan = planOf(raw);
    const shared = plan.boards.find((board) => board.parts.length > 1)!;
    const [first, second] = shared.parts;
    const list = [{ kind: "laid", piece: first!.piece }];
    const before = resume(raw, plan, list);
    const after = resume(raw, plan, [...list, { kind: "broken", piece: second!.piece }]);
    proved(after);
    expect(neededOf(after)).toBe(neededOf(before) + 1);
    expect(after.lines.join("\n")).toContain(`piece ${second!.piece}`);
  });
});

describe("what was measured since", () => {
  test.each(["half", "third", "stack", "free"])("%s: a wall 6 mm out moves no piece away from it", (kind) => {
    const raw = job({ kind });
    const plan = planOf(raw);
    const list = lay(plan, 5);
    const wall = {
      kind: "wall",
      side: 5,
      points: [
        [-6, 1000],
        [-6, 0],
      ],
    };
    const answer = resume(raw, plan, [...list, wall]);
    const next = proved(answer);
    const other = plan.pieces.filter(
      (piece) => list.some((one) => one.piece === piece.id) && piece.ring.some(([x]) => Math.abs(x - 10) < 1),
    );
    // pieces whose end stood at that wall are named, the rest lie as they lay
    expect(other.length).toBeGreaterThan(0);
    expect(answer.exit).toBe(3);
    for (const piece of other) expect(answer.lines.join("\n")).toMatch(new RegExp(`Stop: .*\\b${piece.id} \\(row`));
    const kept = list.map((one, i) => ({ one, i })).filter(({ one }) => !other.some((piece) => piece.id === one.piece));
    expect(next.progress.events.map((event) => event.id)).toEqual(kept.map(({ i }) => `e${i}`));
    expect(
      worstOff(
        plan,
        list.map((one) => (other.some((p) => p.id === one.piece) ? { kind: "-" } : one)),
        next,
      ),
    ).toBeLessThanOrEqual(0.001);
  });

  test.each([6, -6])("the wall before row 0 moved by %d mm: the rows stay where they lie", (by) => {
    const raw = job({ kind: "half" });
    const plan = planOf(raw);
    const list = lay(plan, plan.rows[0]!.pieces.length + plan.rows[1]!.pieces.length);
    const answer = resume(raw, plan, [
      ...list,
      {
        kind: "wall",
        side: 0,
        points: [
          [0, by],
          [4700, by],
        ],
      },
    ]);
    const next = proved(answer);
    const second = plan.rows[1]!.pieces;
    const place = (one: PlanFile, id: string) => one.pieces.find((piece) => piece.id === id)!.ring;
    const carried = new Map(
      next.progress.events.flatMap((event) => (event.kind === "laid" ? [[event.id, event.piece]] : [])),
    );
    list.forEach((one, i) => {
      if (!second.includes(one.piece as string)) return;
      expect(place(next.plan, carried.get(`e${i}`)!)).toEqual(place(plan, one.piece as string));
    });
  });

  test("a wall far from what lies at 33 degrees: all that lies stays to 0.001 mm", () => {
    const raw = job({ kind: "free", angle: 33 }, turned(OUTLINE, 0.838670568, 0.544639035));
    const plan = planOf(raw);
    const list = lay(plan, 4);
    const points = turned(
      [
        [2400, 1594],
        [4700, 1594],
      ],
      0.838670568,
      0.544639035,
    );
    const answer = resume(raw, plan, [...list, { kind: "wall", side: 2, points }]);
    const next = proved(answer);
    expect(worstOff(plan, list, next)).toBeLessThanOrEqual(0.001);
  });

  test("4 mm of drift: spread over the gaps to come, as far as they may go, the rest is said", () => {
    const wide = job({ kind: "half" }, OUTLINE, { gaps: { side: 5, sideRange: [4, 6] } });
    for (const [raw, full] of [
      [wide, true],
      [job({ kind: "half" }), false],
    ] as const) {
      const plan = planOf(raw);
      const list = lay(plan, plan.rows[0]!.pieces.length + plan.rows[1]!.pieces.length);
      const line = { kind: "line", row: 1, v: [plan.rows[1]!.v[1] + 4, plan.rows[1]!.v[1] + 4] };
      const answer = resume(raw, plan, [...list, line]);
      const next = proved(answer);
      const { drift } = (answer.json as { resume: { drift: { gap: number[]; gaps: number; left: number[] } } }).resume;
      expect(drift.gaps).toBe(plan.rows.length - 2);
      const least = full ? 4 : plan.bond.sideGap;
      for (const end of [0, 1]) {
        expect(drift.gap[end]).toBeGreaterThanOrEqual(least);
        expect(4 + drift.gaps * (drift.gap[end]! - plan.bond.sideGap)).toBeCloseTo(drift.left[end]!, 2);
      }
      expect(answer.lines.join("\n")).toContain("Mind: row 2, measured: 4.0 mm beyond its line");
      if (!full) expect(drift.left).toEqual([4, 4]);
      expect(next.progress.events[next.progress.events.length - 1]).toMatchObject({ kind: "line", row: 1 });
    }
  });

  test("an askew line is said with both ends, and that one drawing cannot follow", () => {
    const raw = job({ kind: "half" });
    const plan = planOf(raw);
    const answer = resume(raw, plan, [
      ...lay(plan, 4),
      { kind: "line", row: 0, v: [plan.rows[0]!.v[1] - 1, plan.rows[0]!.v[1] + 3] },
    ]);
    expect(answer.lines.join("\n")).toContain("The rows run askew by 4.0 mm");
  });

  test("a wall that crosses the site is refused with its sentence", () => {
    const raw = job({ kind: "half" });
    const plan = planOf(raw);
    const answer = resume(raw, plan, [
      {
        kind: "wall",
        side: 0,
        points: [
          [0, 0],
          [2000, 3000],
          [4700, 0],
        ],
      },
    ]);
    expect(answer.exit).toBe(2);
    expect(answer.files).toEqual([]);
    expect(answer.problems[0]).toContain("the outline no longer holds");
  });
});

function neededOf(answer: Answer): number {
  const { needed } = (answer.json as { resume: { needed: { boards: { count: number }[] } } }).resume;
  return needed.boards.reduce((sum, one) => sum + one.count, 0);
}
function doneOf(answer: Answer): number[] {
  return (answer.json as { resume: { rowsDone: number[] } }).resume.rowsDone;
}
