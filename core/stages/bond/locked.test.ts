import { describe, expect, test } from "vitest";
import { jobOf, setOutTerrace } from "../../../bench/cutting-terraces.ts";
import type { Job } from "../../job/job.ts";
import { chooseBond } from "./bond.ts";
import type { BondRecord } from "./record.ts";

const BOARD = { lengths: [{ length: 1500, price: 2140 }], width: 145, rise: 25 };
const KINDS = ["half", "third", "stack", "free"] as const;
const terrace = (job: Job, long: number) =>
  setOutTerrace(job, { name: "", heightMm: 1495, steps: [{ toMm: 1495, left: [0, 0], right: [long, long] }] });
const jobWith = (kind: string, locked: { row: number; joints: number[] }[], end = 5) =>
  jobOf({ board: BOARD, bond: { kind, locked }, gaps: { end } });
const jointsOf = (bond: BondRecord, row: number) =>
  bond.joints.filter((joint) => joint.row === row).map((joint) => joint.uUm / 1000);

describe("a locked row", () => {
  test.each(KINDS)("%s: keeps its joints and its neighbours keep the stagger to them", (kind) => {
    for (const row of [0, 4, 9]) {
      const wanted = [900, 2333, 3700];
      const job = jobWith(kind, [{ row, joints: [...wanted].reverse() }]);
      const bond = chooseBond(job, terrace(job, 5200));
      expect(jointsOf(bond, row)).toEqual(wanted.map((u) => expect.closeTo(u, 3)));
      expect(Math.max(...bond.pieces.map((piece) => piece.lengthUm))).toBeLessThanOrEqual(1_500_000);
      if (kind === "stack") continue;
      const near = [row - 1, row + 1]
        .flatMap((r) => jointsOf(bond, r))
        .filter((u) => wanted.some((w) => Math.abs(w - u) < 299.9));
      expect(near).toEqual([]);
    }
  });

  test.each(KINDS)("%s: too long a gap between locked joints is parted further", (kind) => {
    const job = jobWith(kind, [{ row: 3, joints: [1000] }]);
    const bond = chooseBond(job, terrace(job, 5200));
    expect(jointsOf(bond, 3)[0]).toBeCloseTo(1000, 3);
    expect(jointsOf(bond, 3).length).toBeGreaterThanOrEqual(4 - 1);
    expect(Math.max(...bond.pieces.map((piece) => piece.lengthUm))).toBeLessThanOrEqual(1_500_000);
  });

  test.each(KINDS)("%s: a joint that no longer fits is dropped and named", (kind) => {
    const dropped = (long: number, joints: number[], row = 2) => {
      const job = jobWith(kind, [{ row, joints }]);
      const bond = chooseBond(job, terrace(job, long));
      return bond.findings.filter((f) => f.code === "lockedDropped").map((f) => (f.data as { why: string }).why);
    };
    expect(dropped(5200, [1000, 2500, 5600])).toEqual(["outside"]);
    expect(dropped(5200, [1000, 2500, 3900, 5195])).toEqual(["tooShort"]);
    expect(dropped(1450, [700])).toEqual(["oneBoard"]);
    expect(dropped(5200, [1000], 99)).toEqual(["outside"]);
    expect(dropped(5200, [1000, 2500, 3900])).toEqual([]);
  });

  test.each(KINDS)("%s: every row locked where it lies changes nothing", (kind) => {
    // an end gap of an odd number of micrometres puts middles on half ones
    for (const end of [5, 5.001, 4.999]) {
      const free = jobWith(kind, [], end);
      const setout = terrace(free, 5200);
      const before = chooseBond(free, setout);
      const all = setout.rows.map(({ row }) => ({ row, joints: jointsOf(before, row) }));
      const after = chooseBond(jobWith(kind, all, end), setout);
      expect(after.pieces).toEqual(before.pieces);
      expect(after.joints).toEqual(before.joints);
      expect(after.findings).toEqual(before.findings);
    }
  });
});
