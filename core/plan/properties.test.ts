/** Laws on random jobs: fixed seeds, odd shapes. What fails prints its seed. */
import { describe, expect, test } from "vitest";
import { randomJob } from "../../fixtures/random.ts";
import { mirrorJob, turnJob } from "../../fixtures/turn.ts";
import { en } from "../../words/en/index.ts";
import { sayer } from "../../words/say.ts";
import { checkPlan } from "../check/check.ts";
import { type LoadedJob, loadJob } from "./load.ts";
import { makePlan } from "./make.ts";
import type { PlanFile } from "./plan.ts";
import type { PlanRecord } from "./record.ts";
import { toPlanFile } from "./write.ts";

const SEEDS = 1000;
const say = sayer(en);

function load(raw: unknown, name: string): LoadedJob | null {
  const read = loadJob(JSON.stringify(raw), name);
  return read.ok ? read.value : null;
}

function planned(raw: unknown, name: string): { loaded: LoadedJob; record: PlanRecord; plan: PlanFile } | null {
  const loaded = load(raw, name);
  if (!loaded) return null;
  const record = makePlan(loaded);
  return { loaded, record, plan: toPlanFile(record, say, "") };
}

describe("random jobs", () => {
  test(`the checker accepts every plan, boards are never below the bound (${SEEDS} seeds)`, () => {
    const refused: string[] = [];
    let plans = 0;
    for (let seed = 1; seed <= SEEDS; seed++) {
      const made = planned(randomJob(seed), `seed ${seed}`);
      if (!made) continue;
      plans++;
      const result = checkPlan({ ...made.loaded.read, survey: made.loaded.survey }, made.plan, true);
      for (const b of result.breaches.slice(0, 2))
        refused.push(`seed ${seed}: ${b.rule} ${b.code} at ${b.at} found ${b.found} limit ${b.limit}`);
      if (made.plan.figures.boards < made.plan.figures.boardsAtLeast) refused.push(`seed ${seed}: below the bound`);
    }
    expect(refused).toEqual([]);
    // Some random outlines cross themselves and are rightly refused; most must be plans.
    expect(plans).toBeGreaterThan(SEEDS * 0.8);
  });

  test("a quarter turn turns the plan exactly", () => {
    const wrong: string[] = [];
    for (let seed = 1; seed <= 120; seed++) {
      const raw = randomJob(seed);
      if ((raw.bond as { angle: number | null }).angle === null) continue;
      const a = planned(raw, "as is");
      const b = planned(turnJob(raw, 90), "turned");
      if (!a || !b) continue;
      const difference = firstDifference(a.plan, b.plan, (x, y) => [-y + 0, x], 0.0011);
      if (difference) wrong.push(`seed ${seed}: ${difference}`);
    }
    expect(wrong).toEqual([]);
  });

  test("mirroring keeps the area of the field and of what is laid within the rounding of arcs", () => {
    for (let seed = 1; seed <= 120; seed++) {
      const raw = randomJob(seed);
      const a = planned(raw, "as is");
      const b = planned(mirrorJob(raw), "mirrored");
      if (!a || !b) continue;
      const scale = Math.max(1, a.plan.figures.area);
      expect(Math.abs(a.plan.figures.area - b.plan.figures.area) / scale, `seed ${seed}`).toBeLessThan(1e-6);
    }
  });
});

/** The first piece whose ring differs by more than the tolerance after a move, or null. */
function firstDifference(
  a: PlanFile,
  b: PlanFile,
  move: (x: number, y: number) => [number, number],
  tol: number,
): string | null {
  if (a.pieces.length !== b.pieces.length) return `${a.pieces.length} pieces became ${b.pieces.length}`;
  for (let i = 0; i < a.pieces.length; i++) {
    const p = a.pieces[i]!;
    const q = b.pieces[i]!;
    if (p.ring.length !== q.ring.length) return `${p.id}: ${p.ring.length} corners became ${q.ring.length}`;
    for (let k = 0; k < p.ring.length; k++) {
      const [x, y] = move(p.ring[k]![0], p.ring[k]![1]);
      const [qx, qy] = q.ring[k]!;
      if (Math.abs(x - qx) > tol || Math.abs(y - qy) > tol) return `${p.id} corner ${k}: ${x},${y} became ${qx},${qy}`;
    }
  }
  return null;
}
