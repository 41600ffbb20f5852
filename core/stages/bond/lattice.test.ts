import { describe, expect, it } from "vitest";
import { jobWith, NO_SURFACE, siteOf } from "../../../fixtures/site.ts";
import { cutBoards } from "../cutting/cutting.ts";
import { setOut } from "../setout/setout.ts";
import { chooseBond } from "./bond.ts";
import { longestBoardUm } from "./lattice.ts";

const few = { length: 1800, price: 3120, stock: 2 };
const terrace = (kind: string, lengths: unknown[]) =>
  siteOf(
    jobWith(
      [
        [0, 0],
        [5000, 0],
        [5000, 2000],
        [0, 2000],
      ],
      { bond: { kind }, board: { lengths, width: 145, rise: 25 } },
    ),
  )!;

describe("a longer length of which only a few are at hand", () => {
  for (const kind of ["half", "third", "stack", "free"])
    it(`is not what the rows count on (${kind})`, () => {
      const { job, survey } = terrace(kind, [{ length: 1200, price: 1800 }, few]);
      const setout = setOut(job, survey, NO_SURFACE);
      const bond = chooseBond(job, setout);
      const cutting = cutBoards(job, setout, bond);
      expect(Math.max(...bond.pieces.map((p) => p.lengthUm))).toBeLessThanOrEqual(1_200_000);
      expect(cutting.boards.filter((b) => b.lengthUm === 1_800_000).length).toBeLessThanOrEqual(2);
      expect(cutting.findings).toEqual([]);
    });

  it("is, where every length is limited", () => {
    expect(longestBoardUm(terrace("half", [{ length: 1200, price: 1800, stock: 90 }, few]).job)).toBe(1_800_000);
    expect(
      longestBoardUm(
        terrace("half", [
          { length: 1200, price: 1800, stock: 90 },
          { ...few, stock: 0 },
        ]).job,
      ),
    ).toBe(1_200_000);
  });
});
