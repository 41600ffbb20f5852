import { describe, expect, test } from "vitest";
import { chance, halfJoints, jobOf, piecesOf, randomTerrace, setOutTerrace } from "../../../bench/cutting-terraces.ts";
import type { Job } from "../../job/job.ts";
import { cutBoards } from "../cutting/cutting.ts";
import type { SetoutRecord } from "../setout/record.ts";
import { freeJoints } from "./free.ts";
import { practiceJoints } from "./free-practice.ts";
import { freeRules } from "./free-rows.ts";

const BOARD = { lengths: [{ length: 1500, price: 2140 }], width: 145, rise: 25 };
const SHAPES = ["rectangle", "L", "trapezoid"] as const;

/** What legal joints must hold, by other code than the planner's. */
function broken(job: Job, setout: SetoutRecord, joints: readonly number[][]): string[] {
  const out: string[] = [];
  const end = job.gaps.end * 1000;
  const longest = Math.max(...job.board.lengths.map((l) => l.length)) * 1000;
  setout.spans.forEach((span, s) => {
    const list = joints[s]!;
    if (span.mustJoint.length === 0 && span.u1Um - span.u0Um <= longest && list.length > 0)
      out.push(`span ${s}: needless joint`);
    const ends = [span.u0Um - end / 2, ...list, span.u1Um + end / 2];
    for (let k = 1; k < ends.length; k++) {
      const length = ends[k]! - ends[k - 1]! - end;
      if (length > longest + 1) out.push(`span ${s}: piece of ${length}`);
      if (list.length > 0 && length < job.bond.minPiece * 1000 - 1) out.push(`span ${s}: piece of ${length}`);
    }
    for (const must of span.mustJoint)
      if (!list.some((u) => u >= must.from && u <= must.to)) out.push(`span ${s}: no joint at ${must.name}`);
    for (const bar of span.noJoint)
      if (list.some((u) => u > bar.from && u < bar.to)) out.push(`span ${s}: joint in a bar`);
    for (const below of (setout.rows[span.row - 1]?.spans ?? []).flatMap((b) => joints[b]!))
      for (const u of list)
        if (Math.abs(u - below) < job.bond.stagger * 1000) out.push(`span ${s}: stagger ${Math.abs(u - below)}`);
  });
  return out;
}

describe("free joints", () => {
  test("legal on random terraces, never more boards than last-offcut practice or half bond, bound kept", () => {
    let ours = 0;
    let theirs = 0;
    for (let seed = 1; seed <= 45; seed++) {
      const roll = chance(seed + 500);
      const job = jobOf({ board: BOARD, bond: { kind: "free", stagger: [300, 500][roll(2)]! } });
      const setout = setOutTerrace(job, randomTerrace(seed, [15, 30, 60][seed % 3]!, SHAPES[roll(3)]!));
      const free = freeJoints(job, setout);
      expect(free.findings, `seed ${seed}`).toEqual([]);
      expect(broken(job, setout, free.joints), `seed ${seed}`).toEqual([]);
      const boards = cutBoards(job, setout, piecesOf(job, setout, free.joints, "free"));
      const practice = practiceJoints(setout, freeRules(job, 1_500_000));
      const asLaid = cutBoards(job, setout, piecesOf(job, setout, practice, "free")).boards.length;
      const half = halfJoints(job, setout, 0);
      const asHalf = cutBoards(job, setout, piecesOf(job, setout, half, "half")).boards.length;
      if (broken(job, setout, practice).length === 0)
        expect(boards.boards.length, `seed ${seed}`).toBeLessThanOrEqual(asLaid);
      if (broken(job, setout, half).length === 0)
        expect(boards.boards.length, `seed ${seed}`).toBeLessThanOrEqual(asHalf);
      // The bound is over all legal joints: the other ways may not beat it either.
      for (const n of [boards.boards.length, asLaid, asHalf])
        expect(boards.boardsAtLeast, `seed ${seed}`).toBeLessThanOrEqual(n);
      ours += boards.boards.length;
      theirs += asLaid;
    }
    expect(ours).toBeLessThan(theirs);
  });

  test("a joint where there must be one, none where there may be none", () => {
    const job = jobOf({ board: BOARD, bond: { kind: "free" } });
    const setout = setOutTerrace(job, {
      name: "",
      heightMm: 1645,
      steps: [{ toMm: 1645, left: [0, 0], right: [5000, 5000] }],
    });
    setout.spans[3]!.mustJoint.push({ from: 2_200_000, to: 2_260_000, why: "web", name: "post" });
    setout.spans[8]!.noJoint.push({ from: 1_000_000, to: 2_000_000 });
    const free = freeJoints(job, setout);
    expect(free.findings).toEqual([]);
    expect(broken(job, setout, free.joints)).toEqual([]);
  });

  test("where a rule cannot hold there is a plan, and the breach is named at its place", () => {
    const job = jobOf({ board: BOARD, bond: { kind: "free", stagger: 700 } });
    // 1520 long: one joint a row, at least 300 from both ends; two rows cannot keep 700 apart but the outermost places.
    const setout = setOutTerrace(job, {
      name: "",
      heightMm: 445,
      steps: [{ toMm: 445, left: [0, 0], right: [1520, 1520] }],
    });
    const kept = freeJoints(job, setout);
    expect(kept.findings).toEqual([]);
    const tight = jobOf({ board: BOARD, bond: { kind: "free", stagger: 1000 } });
    const free = freeJoints(tight, setout);
    expect(free.findings.length).toBeGreaterThan(0);
    for (const finding of free.findings) {
      expect(finding).toMatchObject({ rule: "stagger", level: "warn", limit: 1000 });
      expect(finding.at).not.toBeNull();
    }
    expect(free.joints.every((list) => list.length === 1)).toBe(true);
  });

  test("a dead end shorter than two least pieces still gets its joint", () => {
    const job = jobOf({ board: BOARD, bond: { kind: "free", minPiece: 800 } });
    const setout = setOutTerrace(job, {
      name: "",
      heightMm: 145,
      steps: [{ toMm: 145, left: [0, 0], right: [1550, 1550] }],
    });
    const free = freeJoints(job, setout);
    expect(free.joints[0]!.length).toBe(1);
    expect(free.findings).toMatchObject([{ code: "freeShortPiece", rule: "minPiece", limit: 800 }]);
  });

  test("several lengths, same job same joints", () => {
    const job = jobOf({
      board: { ...BOARD, lengths: [...BOARD.lengths, { length: 2400, price: 3300 }] },
      bond: { kind: "free" },
    });
    const setout = setOutTerrace(job, randomTerrace(9, 40, "trapezoid"));
    const free = freeJoints(job, setout);
    expect(broken(job, setout, free.joints)).toEqual([]);
    expect(JSON.stringify(freeJoints(job, setout))).toBe(JSON.stringify(free));
  });
});
