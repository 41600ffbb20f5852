import { describe, expect, test } from "vitest";
import { hashJson } from "../job/hash.ts";
import { loadJob } from "../plan/load.ts";
import { makePlan } from "../plan/make.ts";
import type { PlanFile } from "../plan/plan.ts";
import { toPlanFile } from "../plan/write.ts";
import { readProgress } from "./read.ts";
import { resumeJob } from "./resume.ts";
import type { ProgressEvent } from "./schema.ts";

const say = { finding: () => ({ says: "", do: "" }), reason: () => "" };
const load = (raw: unknown) => {
  const loaded = loadJob(JSON.stringify(raw), "a.job.json");
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  return loaded.value;
};
const planOf = (raw: unknown): PlanFile => toPlanFile(makePlan(load(raw)), say, "");
const job = (bond: object, more: object = {}) => ({
  format: "rowline/job@1",
  title: "Courtyard",
  site: {
    outline: [
      [0, 0],
      [6400, 0],
      [6400, 4200],
      [2400, 4200],
      [2400, 2600],
      [0, 2600],
    ],
  },
  board: { lengths: [{ length: 1500, stock: 200 }], width: 145, rise: 25 },
  bond,
  ...more,
});
const base = { when: "2026-05-14T09:30:00Z", by: "Ada" };
const fileOf = (raw: unknown, plan: PlanFile, events: ProgressEvent[]) => {
  const text = JSON.stringify({ format: "rowline/progress@1", job: load(raw).read.hash, plan: hashJson(plan), events });
  const read = readProgress(text, "p");
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
};
const resume = (raw: unknown, plan: PlanFile, events: ProgressEvent[]) => {
  const { read, survey } = load(raw);
  return resumeJob(read, survey, plan, hashJson(plan), fileOf(raw, plan, events));
};
const resumed = (...given: Parameters<typeof resume>) => {
  const result = resume(...given);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};
const lay = (plan: PlanFile, upTo: number): ProgressEvent[] =>
  plan.pieces
    .filter((piece) => piece.row < upTo)
    .map((piece, i) => ({ ...base, id: `e${i}`, kind: "laid", piece: piece.id }));

describe("what lies stays as it lies", () => {
  test.each(["half", "third", "stack"])("in %s bond the pinned job gives the very rows again", (kind) => {
    for (const site of [{}, { angle: 0, shift: null }, { angle: 90 }]) {
      const raw = job({ kind, ...site });
      const plan = planOf(raw);
      const { raw: next, kept, changed } = resumed(raw, plan, lay(plan, 5));
      expect(kept.rows.map((row) => row.row)).toEqual([0, 1, 2, 3, 4]);
      expect(kept.rows.every((row) => row.done)).toBe(true);
      expect(changed).toContain("bond.angle");
      const again = planOf(next);
      expect(again.frame).toEqual(plan.frame);
      const shape = (pieces: PlanFile["pieces"]) => pieces.filter((piece) => piece.row < 5).map((piece) => piece.ring);
      expect(shape(again.pieces)).toEqual(shape(plan.pieces));
    }
  });

  test("a row begun keeps its joints; pieces in it are laid or not", () => {
    const raw = job({ kind: "half" });
    const plan = planOf(raw);
    const { kept, state } = resumed(raw, plan, lay(plan, 9).slice(0, 12));
    const row = kept.rows[kept.rows.length - 1]!;
    expect(row.joints).toEqual(plan.joints.filter((one) => one.row === row.row).map((one) => one.u));
    expect(kept.rows.flatMap((one) => one.pieces).filter((piece) => piece.laid)).toHaveLength(12);
    expect(kept.laid).toEqual(plan.pieces.filter((piece) => state.laid.has(piece.id)));
  });

  test("nothing laid pins nothing", () => {
    const raw = job({ kind: "half" });
    const plan = planOf(raw);
    expect(resumed(raw, plan, []).raw).toEqual(raw);
  });
});

describe("what was measured since counts", () => {
  const raw = job({ kind: "half" });
  const plan = planOf(raw);

  test("a line gives the drift at both ends, the last row's counting", () => {
    const line = (id: string, row: number, by: number): ProgressEvent => ({
      ...base,
      id,
      kind: "line",
      row,
      v: [plan.rows[row]!.v[1] + by, plan.rows[row]!.v[1] + 2 * by],
    });
    expect(resumed(raw, plan, [line("b", 6, 1.5), line("a", 3, 9)]).kept.drift).toEqual({ row: 6, start: 1.5, end: 3 });
  });

  test("levels are added, and a wall takes the place of its side", () => {
    const events: ProgressEvent[] = [
      { ...base, id: "a", kind: "level", at: [500, 500, 3] },
      {
        ...base,
        id: "b",
        kind: "wall",
        side: 1,
        points: [
          [6405, 4202],
          [6390, 2000],
          [6402, -2],
        ],
      },
      {
        ...base,
        id: "c",
        kind: "wall",
        side: 0,
        points: [
          [800, 4],
          [5000, 6],
        ],
      },
    ];
    const { raw: next } = resumed(raw, plan, events);
    const { survey } = load(next);
    expect(survey.levels).toHaveLength(1);
    expect(survey.outline.map(([x, y]) => [x, y])).toEqual(
      expect.arrayContaining([
        [0, 0],
        [800, 4],
        [5000, 6],
        [6402, -2],
        [6390, 2000],
        [6405, 4202],
        [2400, 4200],
        [2400, 2600],
        [0, 2600],
      ]),
    );
    expect(survey.outline).toHaveLength(9);
    expect(survey.sides.every((side) => side.gapMm === 10)).toBe(true);
  });

  test("spoilt boards leave the stock, those that lie are boards of the plan still, and what is left of them is at hand", () => {
    const cut = plan.boards.find((board) => board.parts.length === 1 && board.parts[0]!.size[0] < 1000)!;
    const whole = plan.boards.find((board) => board.id !== cut.id && board.parts.length === 1)!;
    const events: ProgressEvent[] = [
      { ...base, id: "a", kind: "laid", piece: cut.parts[0]!.piece },
      { ...base, id: "b", kind: "broken", board: whole.id },
      { ...base, id: "c", kind: "offcut", length: 700, width: 145 },
    ];
    const { kept, raw: next } = resumed(raw, plan, events);
    expect(kept.boards.map(({ board, why }) => [board.id, why]).sort()).toEqual(
      [
        [cut.id, "laid"],
        [whole.id, "broken"],
      ].sort(),
    );
    expect(kept.offcuts).toContainEqual({ length: 700, width: 145, from: null });
    const rest = kept.offcuts.find((one) => one.from === cut.id);
    expect(rest?.length).toBeCloseTo(1500 - cut.parts[0]!.size[0] - 3, 3);
    expect(load(next).read.job.board.lengths.map((one) => one.stock)).toEqual([199]);
    const board = raw.board as { lengths: object[] };
    const yard = { ...raw, board: { ...board, lengths: board.lengths.map((one) => ({ ...one, owned: 4 })) } };
    const again = planOf(yard);
    const broken: ProgressEvent = { ...base, id: "b", kind: "broken", board: again.boards[0]!.id };
    const left = load(resumed(yard, again, [broken]).raw).read.job.board.lengths;
    expect(left.map((one) => [one.stock, one.owned])).toEqual([[199, 3]]);
  });
});

test("another job, another plan and names the plan does not know are told of all at once", () => {
  const raw = job({ kind: "half" });
  const plan = planOf(raw);
  const { read, survey } = load(raw);
  const events: ProgressEvent[] = [
    { ...base, id: "a", kind: "laid", piece: "p9999" },
    { ...base, id: "b", kind: "hole", clip: "cc1", at: [0, 0] },
    { ...base, id: "c", kind: "line", row: 900, v: [0, 0] },
    { ...base, id: "d", kind: "gap", joint: ["p1", "p77"], mm: 4 },
    { ...base, id: "e", kind: "broken", board: "b0" },
    {
      ...base,
      id: "f",
      kind: "wall",
      side: 66,
      points: [
        [0, 0],
        [1, 1],
      ],
    },
  ];
  const file = { format: "rowline/progress@1" as const, job: "0".repeat(64), plan: "1".repeat(64), events };
  const result = resumeJob(read, survey, plan, hashJson(plan), file);
  expect(result.ok ? [] : result.problems.map((one) => one.code)).toEqual([
    "otherJob",
    "otherPlan",
    ...Array.from({ length: 6 }, () => "notInPlan"),
  ]);
});
