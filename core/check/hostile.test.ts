/** Plan files no planner writes: the judge refuses them in counted steps, and soon. */
import { expect, test } from "vitest";
import { loadJob } from "../plan/load.ts";
import { makePlan } from "../plan/make.ts";
import type { PlanFile } from "../plan/plan.ts";
import { toPlanFile } from "../plan/write.ts";
import { type CheckResult, checkPlan } from "./check.ts";
import { isSimple, stepsFor } from "./simple.ts";

const job = {
  format: "rowline/job@1",
  title: "Niche for hostile plans",
  currency: "EUR",
  site: {
    outline: [
      [0, 0],
      [2400, 0],
      [2400, 1600],
      [0, 1600],
    ],
    sides: ["wall", "wall", "open", "wall"],
  },
  board: { name: "board", lengths: [{ length: 1500, price: 2100 }], width: 145, rise: 25 },
};
const text = JSON.stringify(job);
const loaded = loadJob(text, "job");
if (!loaded.ok) throw new Error("the test's own job is refused");
const { read, survey } = loaded.value;
const good = JSON.stringify(
  toPlanFile(makePlan(loaded.value), { reason: () => "", finding: () => ({ says: "", do: "" }) }, ""),
);
const fresh = (): PlanFile => JSON.parse(good) as PlanFile;
const judge = (plan: PlanFile): CheckResult => checkPlan({ ...read, survey }, plan, true);
const codes = (result: CheckResult): string[] => [...new Set(result.breaches.map((breach) => breach.code))];
/** A zigzag that crosses itself nearly everywhere. */
const tangled = (n: number): [number, number][] =>
  Array.from({ length: n }, (_, i) => [(i * 7919) % 1000, (i * 104_729) % 100]);

test("the plan that is spoilt below stands", () => {
  expect(judge(fresh()).breaches).toEqual([]);
});

test("an end clip anchored beside its board, in the wall, is refused", () => {
  const plan = fresh();
  const clip = plan.clips.find((one) => one.kind === "end")!;
  const piece = plan.pieces.find((one) => one.id === clip.holds[0])!;
  const least = Math.min(...piece.ring.map(([x]) => x));
  const most = Math.max(...piece.ring.map(([x]) => x));
  const before = clip.at[0] - least < most - clip.at[0];
  clip.at = [before ? least - 80 : most + 80, clip.at[1]];
  expect(codes(judge(plan))).toContain("endClipPlace");
});

test("twenty thousand pieces in one place are refused, not paired with each other", () => {
  const plan = fresh();
  for (let i = 0; i < 20_000; i++) plan.pieces.push({ ...plan.pieces[0]!, id: `x${i}` });
  const result = judge(plan);
  expect(codes(result)).toContain("overlap");
  expect(result.counts.breaches).toBeLessThan(2000);
});

test("rings that cross themselves are refused before anything is cut by them", () => {
  const onPiece = fresh();
  onPiece.pieces[0]!.ring = tangled(200_000);
  expect(codes(judge(onPiece))).toContain("ringNotSimple");
  const onPart = fresh();
  onPart.boards[0]!.parts[0]!.ring = tangled(200_000);
  expect(codes(judge(onPart))).toContain("ringNotSimple");
  const everywhere = fresh();
  for (const piece of everywhere.pieces) piece.ring = tangled(5000);
  expect(codes(judge(everywhere))).toContain("ringNotSimple");
});

test("fifty thousand holes in one piece are refused, not paired with each other", () => {
  const plan = fresh();
  const [x, y] = plan.pieces[0]!.ring[0]!;
  for (let i = 0; i < 50_000; i++)
    plan.pieces[0]!.holes.push([
      [x + 10, y + 10],
      [x + 20, y + 10],
      [x + 20, y + 20],
    ]);
  expect(codes(judge(plan))).toContain("ringNotSimple");
});

test("a ring is simple or not, however many corners it has", () => {
  const round = Array.from({ length: 50_000 }, (_, i) => ({ x: i * 10, y: (i * 37) % 1000 }));
  const closed = [...round, { x: 499_990, y: 5000 }, { x: 0, y: 5000 }];
  expect(isSimple(closed, stepsFor(closed.length))).toBe(true);
  closed[25_000] = { x: 10, y: 900 };
  expect(isSimple(closed, stepsFor(closed.length))).toBe(false);
  expect(
    isSimple(
      [
        { x: 0, y: 0 },
        { x: 1, y: 1 },
      ],
      stepsFor(2),
    ),
  ).toBe(false);
  const tooMany = tangled(30_000).map(([x, y]) => ({ x: x * 1000, y: y * 1000 }));
  expect(isSimple(tooMany, { left: 10 })).toBe(false);
});
