import { describe, expect, test } from "vitest";
import {
  chance,
  halfJoints,
  jobOf,
  piecesOf,
  randomTerrace,
  setOutTerrace,
  type Terrace,
} from "../../../bench/cutting-terraces.ts";
import type { Job } from "../../job/job.ts";
import type { BondRecord } from "../bond/record.ts";
import { cutBoards } from "./cutting.ts";
import { demandUm } from "./demand.ts";
import type { Board, CuttingRecord, Part } from "./record.ts";

const BOARD = { lengths: [{ length: 1500, price: 2140 }], width: 145, rise: 25 };

function planned(job: Job, terrace: Terrace, phaseUm = 700_000): { bond: BondRecord; cutting: CuttingRecord } {
  const setout = setOutTerrace(job, terrace);
  const bond = piecesOf(job, setout, halfJoints(job, setout, phaseUm), "half");
  return { bond, cutting: cutBoards(job, setout, bond) };
}

/** Everything a saw plan must hold, said by code that shares nothing with the planner. */
function faults(job: Job, bond: BondRecord, cutting: CuttingRecord): string[] {
  const out: string[] = [];
  const kerf = job.cut.kerf * 1000;
  const width = job.board.width * 1000;
  const seen = new Array<number>(bond.pieces.length).fill(0);
  cutting.boards.forEach((board, b) => {
    if (board.id !== `b${b + 1}`) out.push(`${board.id} out of order`);
    if (!job.board.lengths.some((l) => l.length * 1000 === board.lengthUm)) out.push(`${board.id} is no stock length`);
    for (const part of board.parts) {
      seen[part.piece]!++;
      if (cutting.boardOf[part.piece] !== b) out.push(`piece ${part.piece} names another board`);
      out.push(...partFaults(job, bond, board, part, width));
    }
    for (let i = 0; i < board.parts.length; i++)
      for (let j = 0; j < i; j++) {
        const gap = apart(shape(board.parts[i]!), shape(board.parts[j]!));
        if (gap < kerf - 1) out.push(`${board.id}: parts ${gap} um apart`);
      }
    for (const offcut of board.offcuts) {
      const rest = { piece: -1, at: offcut.at, size: offcut.size, turned: false, ring: null };
      if (offcut.at[0] + offcut.size[0] > board.lengthUm || offcut.at[1] + offcut.size[1] > width)
        out.push(`${board.id}: offcut beyond the board`);
      for (const part of board.parts)
        if (apart(shape(rest), shape(part)) < kerf - 1) out.push(`${board.id}: offcut too near a part`);
    }
  });
  seen.forEach((n, i) => {
    if (n !== 1) out.push(`piece ${i} cut ${n} times`);
  });
  const firsts = cutting.boards.map((b) => Math.min(...b.parts.map((p) => p.piece)));
  if (firsts.some((f, i) => i > 0 && f < firsts[i - 1]!)) out.push("boards not in order of first use");
  if (cutting.boardsAtLeast > cutting.boards.length)
    out.push(`bound ${cutting.boardsAtLeast} above ${cutting.boards.length}`);
  return out;
}

function partFaults(job: Job, bond: BondRecord, board: Board, part: Part, width: number): string[] {
  const out: string[] = [];
  const piece = bond.pieces[part.piece]!;
  const [x, y] = part.at;
  const [w, h] = part.size;
  if (x < 0 || y < 0 || x + w > board.lengthUm || y + h > width) out.push(`${board.id}: part beyond the board`);
  if (w !== piece.lengthUm || h !== piece.widthUm) out.push(`${board.id}: part of another size`);
  if ((part.ring === null) !== piece.plain) out.push(`${board.id}: ring missing or too many`);
  if (part.turned && !job.board.reversible) out.push(`${board.id}: turned`);
  for (const edge of [0, 1] as const) {
    if (piece.edges[edge] !== "groove") continue;
    const low = (edge === 0) !== part.turned;
    const has = job.board.grooves === "both" || job.board.grooves === (low ? "lower" : "upper");
    if (!has || (low ? y !== 0 : y + h !== width)) out.push(`${board.id}: groove missing`);
  }
  return out;
}

type Shape = [number, number][];
function shape(part: Part): Shape {
  if (part.ring) return part.ring.map(([x, y]) => [x, y]);
  const [x, y] = part.at;
  const [w, h] = part.size;
  return [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ];
}
/** Distance of two convex rings, negative where they overlap: the widest gap over the normals of both, or corner to corner. */
function apart(a: Shape, b: Shape): number {
  let widest = Number.NEGATIVE_INFINITY;
  for (const ring of [a, b])
    ring.forEach((p, i) => {
      const q = ring[(i + 1) % ring.length]!;
      const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
      const nx = (q[1] - p[1]) / length;
      const ny = (p[0] - q[0]) / length;
      const along = (s: Shape): number[] => s.map((c) => c[0] * nx + c[1] * ny);
      const pa = along(a);
      const pb = along(b);
      widest = Math.max(widest, Math.min(...pb) - Math.max(...pa), Math.min(...pa) - Math.max(...pb));
    });
  return widest;
}

/** The duals proved again by another knapsack, then the pieces' duals by the rule in record.ts. */
function boundAgain(job: Job, bond: BondRecord, cutting: CuttingRecord): number {
  const { by, scale, duals } = cutting.bound;
  const kerf = job.cut.kerf * 1000;
  const capacity = Math.max(...job.board.lengths.map((l) => l.length)) * 1000 + kerf;
  const lengths = duals.map(([mm]) => Math.round(mm * 1000));
  expect(
    fillsAbove(
      lengths,
      duals.map((d) => d[1]),
      capacity,
      scale,
    ),
  ).toBe(false);
  let sum = 0;
  for (const piece of bond.pieces) {
    const demand = demandUm(job, piece, job.board.width * 1000, kerf, by);
    let dual = 0;
    lengths.forEach((length, i) => {
      if (length <= demand) dual = Math.max(dual, duals[i]![1]);
    });
    sum += dual;
  }
  return Math.ceil(sum / scale);
}
/** Boards whose parts' demands, by any measure, exceed the board and a kerf: one would disprove the measure. */
function overfull(job: Job, bond: BondRecord, cutting: CuttingRecord): string[] {
  const kerf = job.cut.kerf * 1000;
  const out: string[] = [];
  for (const by of ["area", "edges", "middle"] as const) {
    if (by === "edges" && job.board.grooves === "none") continue;
    for (const board of cutting.boards) {
      const sum = board.parts.reduce(
        (n, p) => n + demandUm(job, bond.pieces[p.piece]!, job.board.width * 1000, kerf, by),
        0,
      );
      if (sum > board.lengthUm + kerf) out.push(`${board.id} ${by}: ${sum}`);
    }
  }
  return out;
}

/** Whether any filling is worth more than `scale`: items in order of length, every count, cut off by the best value a length. */
function fillsAbove(lengths: readonly number[], duals: readonly number[], capacity: number, scale: number): boolean {
  const rate = lengths.map((_, i) => Math.max(...lengths.slice(i).map((l, k) => duals[i + k]! / l)));
  let steps = 0;
  const fill = (from: number, room: number, worth: number): boolean => {
    if (worth > scale) return true;
    if (from === lengths.length || worth + room * rate[from]! < scale + 1 - 1e-6) return false;
    if (++steps > 3e6) throw new Error("not proved");
    for (let n = Math.floor(room / lengths[from]!); n >= 0; n--)
      if (fill(from + 1, room - n * lengths[from]!, worth + n * duals[from]!)) return true;
    return false;
  };
  return fill(0, capacity, 0);
}

describe("cutting boards", () => {
  test("holds what a saw plan must on random terraces of every kind, and its bound is proved again", () => {
    for (let seed = 1; seed <= 60; seed++) {
      const roll = chance(seed);
      const shape = (["rectangle", "L", "trapezoid"] as const)[seed % 3]!;
      const job = jobOf({
        board: {
          ...BOARD,
          grooves: (["both", "both", "lower", "upper", "none"] as const)[roll(5)],
          reversible: roll(3) > 0,
          lengths: roll(3) === 0 ? [...BOARD.lengths, { length: 2200, price: 3100 }] : BOARD.lengths,
        },
        cut: { kerf: roll(2) === 0 ? 3 : 4 },
      });
      const { bond, cutting } = planned(job, randomTerrace(seed, [6, 15, 40][seed % 3]!, shape), roll(1500) * 1000);
      expect(faults(job, bond, cutting), `seed ${seed}`).toEqual([]);
      expect(boundAgain(job, bond, cutting), `seed ${seed}`).toBeGreaterThanOrEqual(cutting.boardsAtLeast);
      expect(overfull(job, bond, cutting), `seed ${seed}`).toEqual([]);
    }
  });

  test("one square metre of 1200 mm boards is five boards, whole and uncut", () => {
    const job = jobOf({ board: { lengths: [{ length: 1200, price: 0 }], width: 160, rise: 25 } });
    const terrace: Terrace = {
      name: "module",
      heightMm: 820,
      steps: [{ toMm: 820, left: [0, 0], right: [1200, 1200] }],
    };
    const { cutting } = planned(job, terrace);
    expect([cutting.boards.length, cutting.boardsAtLeast, cutting.cuts, cutting.rips, cutting.wasteUm2]).toEqual([
      5, 5, 0, 0, 0,
    ]);
    expect(cutting.ends.every(([a, b]) => a === "cut" || b === "cut" || (a === "factory" && b === "factory"))).toBe(
      true,
    );
  });

  test("two ripped rows come from one run of boards where their grooves allow it", () => {
    const strip = (v0: number, v1: number, edges: ["groove" | "ripped", "groove" | "ripped"], row: number) => ({
      v0,
      v1,
      edges,
      row,
    });
    const bondOf = (list: ReturnType<typeof strip>[]): BondRecord => ({
      kind: "half",
      lengthUm: 1_500_000,
      phaseUm: 0,
      joints: [],
      reasons: [],
      findings: [],
      pieces: list.map((s, i) => ({
        id: `p${i + 1}`,
        row: s.row,
        span: s.row,
        region: {
          outer: [
            [0, s.v0],
            [1_400_000, s.v0],
            [1_400_000, s.v1],
            [0, s.v1],
          ],
          holes: [],
        },
        u0Um: 0,
        u1Um: 1_400_000,
        v0Um: s.v0,
        v1Um: s.v1,
        lengthUm: 1_400_000,
        widthUm: s.v1 - s.v0,
        ends: ["factory", "factory"],
        edges: s.edges,
        stripV0Um: s.edges[0] === "groove" ? s.v0 : s.v1 - 145_000,
        stripV1Um: s.edges[0] === "groove" ? s.v0 + 145_000 : s.v1,
        plain: true,
        cutWhen: "ahead",
      })),
    });
    const setout = setOutTerrace(jobOf({ board: BOARD }), {
      name: "",
      heightMm: 1000,
      steps: [{ toMm: 1000, left: [0, 0], right: [1400, 1400] }],
    });
    const first = strip(75_000, 145_000, ["ripped", "groove"], 0);
    const last = strip(300_000, 370_000, ["groove", "ripped"], 2);
    const boards = (given: object, list: ReturnType<typeof strip>[]): number => {
      const job = jobOf({ board: { ...BOARD, ...given } });
      const bond = bondOf(list);
      const cutting = cutBoards(job, setout, bond);
      expect(faults(job, bond, cutting)).toEqual([]);
      return cutting.boards.length;
    };
    expect(boards({ reversible: false }, [first, last])).toBe(1);
    expect(boards({ reversible: true }, [last, strip(450_000, 520_000, ["groove", "ripped"], 3)])).toBe(1);
    expect(boards({ reversible: false }, [last, strip(450_000, 520_000, ["groove", "ripped"], 3)])).toBe(2);
    expect(
      boards({ reversible: true, grooves: "lower" }, [last, strip(450_000, 520_000, ["groove", "ripped"], 3)]),
    ).toBe(2);
    // Three held strips never share a cross-section, however narrow.
    expect(
      boards({}, [
        last,
        strip(450_000, 480_000, ["groove", "ripped"], 3),
        strip(600_000, 630_000, ["groove", "ripped"], 4),
      ]),
    ).toBe(2);
  });

  test("slanting ends of one direction share cuts, and save boards over boxes", () => {
    let shared = 0;
    let boxed = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const lean: Terrace = {
        name: "lean",
        heightMm: 3000,
        steps: [{ toMm: 3000, left: [0, 0], right: [2000 + seed * 130, 5000 + seed * 130] }],
      };
      const job = jobOf({ board: BOARD });
      const made = planned(job, lean);
      expect(faults(job, made.bond, made.cutting)).toEqual([]);
      shared += made.cutting.boards.length;
      const still = jobOf({ board: { ...BOARD, reversible: false } });
      boxed += planned(still, lean).cutting.boards.length;
    }
    expect(shared).toBeLessThan(boxed);
  });

  test("cheapest buy, not fewest boards; stock at hand; what is missing is named", () => {
    const terrace: Terrace = { name: "", heightMm: 1495, steps: [{ toMm: 1495, left: [0, 0], right: [1000, 1000] }] };
    const cut = (lengths: object[]): CuttingRecord => {
      const job = jobOf({ board: { ...BOARD, lengths } });
      const { bond, cutting } = planned(job, terrace);
      expect(faults(job, bond, cutting)).toEqual([]);
      return cutting;
    };
    // Ten pieces of 1000: two a board of 2100 at 300 each, or one of 1100 at 100.
    expect(
      cut([
        { length: 2100, price: 300 },
        { length: 1100, price: 100 },
      ]).boards.length,
    ).toBe(10);
    expect(
      cut([
        { length: 2100, price: 150 },
        { length: 1100, price: 100 },
      ]).boards.length,
    ).toBe(5);
    const scarce = cut([
      { length: 2100, price: 150, stock: 3 },
      { length: 1100, price: 100 },
    ]);
    expect(scarce.boards.map((b) => b.lengthUm / 1000).sort()).toEqual([1100, 1100, 1100, 1100, 2100, 2100, 2100]);
    expect(scarce.findings).toEqual([]);
    // What lies in the yard costs nothing and goes first, however dear it once was.
    const yard = cut([
      { length: 2100, price: 900, owned: 2 },
      { length: 1100, price: 100 },
    ]);
    expect(yard.boards.map((b) => b.lengthUm / 1000).sort()).toEqual([...new Array(6).fill(1100), 2100, 2100]);
    const part = cut([
      { length: 2100, price: 900, stock: 3, owned: 9 },
      { length: 1100, price: 100 },
    ]);
    expect(part.boards.filter((b) => b.lengthUm === 2_100_000)).toHaveLength(3);
    const missing = cut([{ length: 1100, price: 100, stock: 7 }]);
    expect(missing.findings).toMatchObject([
      { code: "supply", level: "stop", data: { missing: 3, needed: 10, atHand: 7 } },
    ]);
  });

  test("ends: factory only where a part lies at its board's end, and cuts are counted", () => {
    const job = jobOf({ board: BOARD });
    const { bond, cutting } = planned(job, randomTerrace(5, 20, "rectangle"));
    let cuts = 0;
    for (const board of cutting.boards) {
      const xs = [...new Set(board.parts.flatMap((p) => [p.at[0], p.at[0] + p.size[0]]))];
      cuts += xs.filter((x) => x > 0 && x < board.lengthUm).length;
      for (const part of board.parts) {
        const [left, right] = cutting.ends[part.piece]!;
        if ((part.turned ? right : left) === "factory") expect(part.at[0]).toBe(0);
        if ((part.turned ? left : right) === "factory") expect(part.at[0] + part.size[0]).toBe(board.lengthUm);
        if (left === "factory") expect(bond.pieces[part.piece]!.ends[0]).toBe("factory");
      }
    }
    // Every cut between two parts a kerf apart shows two ends, every other one.
    expect(cutting.cuts).toBeLessThanOrEqual(cuts);
    expect(cutting.cuts).toBeGreaterThan(cuts / 2);
  });

  test("same terrace, same saw plan", () => {
    const job = jobOf({ board: BOARD });
    const terrace = randomTerrace(3, 40, "trapezoid");
    expect(JSON.stringify(planned(job, terrace).cutting)).toBe(JSON.stringify(planned(job, terrace).cutting));
  });
});
