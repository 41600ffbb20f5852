import { expect, test } from "vitest";
import { loadJob } from "../plan/load.ts";
import type { PlanFile } from "../plan/plan.ts";
import { checkPlan } from "./check.ts";
import { walkSide } from "./curve.ts";
import { fieldOf } from "./field.ts";
import { areaOf } from "./polygons.ts";
import { fillsAbove } from "./rules/bound.ts";
import { turnOf, unitOf } from "./turn.ts";

/** One square metre, five boards one above the other, open all round: written by hand, not by the planner. */
const square = {
  format: "rowline/job@1",
  title: "One square metre",
  site: {
    outline: [
      [0, 0],
      [1200, 0],
      [1200, 820],
      [0, 820],
    ],
    sides: ["open", "open", "open", "open"],
  },
  base: { membrane: false, heating: false, tendons: false },
  board: { lengths: [{ length: 1200, price: 1900, pack: 1, stock: null }], width: 160, rise: 22 },
  gaps: { side: 5, sideRange: [5, 5], end: 5, edge: 0 },
  bond: { angle: 0, kind: "half" },
  trim: null,
  clips: { fixing: { diameter: 6, embed: 35, holes: [[0, 0]] } },
};

function byHand(): { job: Parameters<typeof checkPlan>[0]; plan: PlanFile } {
  const loaded = loadJob(JSON.stringify(square), "square");
  if (!loaded.ok) throw new Error("the job does not read");
  const { read, survey } = loaded.value;
  const rows = [0, 1, 2, 3, 4];
  const v = (row: number) => row * 165;
  type Clip = PlanFile["clips"][number];
  const clips: Clip[] = [];
  const clip = (kind: Clip["kind"], seam: number, x: number, y: number, holds: string[]) =>
    void clips.push({ id: `c${clips.length + 1}`, kind, seam, at: [x, y], play: [0, 0], holds });
  for (const x of [90, 600, 1110]) clip("start", 0, x, -2.5, ["p1"]);
  for (const row of rows.slice(1))
    for (const x of [300, 900]) clip("seam", row, x, v(row) - 2.5, [`p${row}`, `p${row + 1}`]);
  for (const x of [90, 600, 1110]) clip("last", 5, x, 822.5, ["p5"]);
  for (const row of rows) for (const x of [60, 1140]) clip("end", row, x, v(row) + 80, [`p${row + 1}`]);
  const counts = { start: 3, seam: 8, last: 3, end: 10 };
  const item = (name: string, need: number, spare: number, price: number | null = null) => ({
    item: name,
    name,
    unit: "pc",
    need,
    spare,
    pack: 1,
    buy: need + spare,
    price,
  });
  const plan: PlanFile = {
    format: "rowline/plan@1",
    summary: "Nothing is excused.",
    job: read.hash,
    engine: "by hand",
    defaults: [],
    reasons: [],
    base: null,
    frame: { origin: [0, 0], angle: 0 },
    bond: { kind: "half", length: 1200, phase: 0, sideGap: 5 },
    rows: rows.map((row) => ({ row, v: [v(row), v(row) + 160], pieces: [`p${row + 1}`] })),
    pieces: rows.map((row) => ({
      id: `p${row + 1}`,
      row,
      ring: [
        [0, v(row)],
        [1200, v(row)],
        [1200, v(row) + 160],
        [0, v(row) + 160],
      ],
      holes: [],
      length: 1200,
      width: 160,
      ends: ["factory", "factory"],
      edges: ["groove", "groove"],
      heldBy: ["clips", "clips"],
      cutWhen: "ahead",
      board: `b${row + 1}`,
    })),
    joints: [],
    clips,
    screws: [],
    boards: rows.map((row) => ({
      id: `b${row + 1}`,
      length: 1200,
      parts: [{ piece: `p${row + 1}`, at: [0, 0], size: [1200, 160], turned: false, ring: null }],
      offcuts: [],
    })),
    laying: rows.map((row) => ({
      step: row + 1,
      piece: `p${row + 1}`,
      clipsBefore: clips
        .filter((c) => (c.kind === "end" || c.kind === "start" || c.kind === "seam") && c.seam === row)
        .map((c) => c.id),
      clipsAfter: row === 4 ? clips.filter((c) => c.kind === "last").map((c) => c.id) : [],
    })),
    trims: [],
    takeoff: [
      item("board-1200", 5, 2, 1900),
      item("clip-start", 3, 1),
      item("clip-seam", 8, 1),
      item("clip-last", 3, 1),
      item("clip-end", 10, 1),
      item("fixing-35", 24, 3),
      item("bit", 1, 0),
    ],
    figures: {
      area: 1200 * 820,
      boards: 5,
      boardsAtLeast: 5,
      bound: { scope: "pieces", by: "area", scale: 1, duals: [[1203, 1]] },
      cuts: 0,
      rips: 0,
      waste: 0,
      mass: 6 * read.job.board.mass,
      clips: counts,
      total: 7 * 1900,
    },
    findings: [],
  };
  return { job: { raw: read.raw, job: read.job, hash: read.hash, survey }, plan };
}

test("a plan written by hand for one square metre stands: 5 boards, 3 start, 8 seam, 3 last clips", () => {
  const { job, plan } = byHand();
  const result = checkPlan(job, plan);
  expect(result.breaches).toEqual([]);
  expect(result.counts).toMatchObject({ pieces: 5, clips: 24, boards: 5, excused: 0 });
});

test("boards in the fitter's yard are counted as drawn and not bought, no more and no fewer than the job says", () => {
  const { job, plan } = byHand();
  const lengths = job.job.board.lengths.map((l) => ({ ...l, owned: 3 }));
  const yard = { ...job, job: { ...job.job, board: { ...job.job.board, lengths } } };
  const codes = (line: object, total: number) =>
    checkPlan(yard, {
      ...plan,
      takeoff: [{ ...plan.takeoff[0]!, ...line }, ...plan.takeoff.slice(1)],
      figures: { ...plan.figures, total },
    }).breaches.map((breach) => breach.code);
  expect(codes({ owned: 3, buy: 4 }, 4 * 1900)).toEqual([]);
  expect(codes({}, 7 * 1900)).toContain("takeoffOwned");
  expect(codes({ owned: 2, buy: 5 }, 5 * 1900)).toContain("takeoffOwned");
  expect(codes({ owned: 3, buy: 5 }, 5 * 1900)).toContain("takeoffPack");
});

test("the judge turns exactly at right angles and to 1e-12 elsewhere", () => {
  expect([0, 90, 180, 270, 360, -90, 450].map(unitOf)).toEqual([
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
    [1, 0],
    [0, -1],
    [0, 1],
  ]);
  for (let deg = -720; deg < 720; deg += 7.3) {
    const [c, s] = unitOf(deg);
    expect(Math.abs(c - Math.cos((deg * Math.PI) / 180))).toBeLessThan(1e-12);
    expect(Math.abs(s - Math.sin((deg * Math.PI) / 180))).toBeLessThan(1e-12);
  }
});

test("an arc is walked on its circle, and moved along its normals is concentric", () => {
  for (const bulge of [1, -1, 0.4142135623730951, -0.2, 3]) {
    const side = walkSide(0, 0, 1000, 0, bulge);
    const radius = (1000 * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
    const cy = (1000 * (1 - bulge * bulge)) / (4 * bulge);
    side.xs.forEach((x, i) => {
      const y = side.ys[i]!;
      expect(Math.hypot(x - 500, y - cy)).toBeCloseTo(radius, 7);
      const inward = bulge > 0 ? 1 : -1;
      expect(Math.hypot(x + side.nx[i]! * 10 - 500, y + side.ny[i]! * 10 - cy)).toBeCloseTo(radius - inward * 10, 7);
    });
  }
});

/** Area of the field of a ring with one gap a side and cut-outs, mm2. */
function fieldArea(
  outline: number[][],
  gaps: number[],
  cutouts: { ring: number[][]; gap: number }[] = [],
  angle = 0,
): number {
  const vertices = outline.map(([x, y, b]) => [x!, y!, b ?? 0] as const);
  const survey = {
    outline: vertices,
    sides: gaps.map((gapMm, source) => ({ kind: "wall", gapMm, source })),
    cutouts: cutouts.map(({ ring, gap }) => ({
      name: "c",
      ring: ring.map(([x, y, b]) => [x!, y!, b ?? 0] as const),
      gapMm: gap,
      height: "tall",
    })),
  } as unknown as Parameters<typeof fieldOf>[0];
  return areaOf(fieldOf(survey, turnOf([0, 0], angle)).paths) / 1e6;
}

test.each([0, 90, 31.7])("fields with areas known by hand, rows at %s degrees", (angle) => {
  const box = [
    [0, 0],
    [1000, 0],
    [1000, 600],
    [0, 600],
  ];
  const near = (found: number, known: number) => expect(Math.abs(found - known)).toBeLessThan(1);
  near(fieldArea(box, [10, 20, 30, 40], [], angle), (1000 - 60) * (600 - 40));
  // A reflex corner keeps its mitre: the L less a band all round.
  const ell = [
    [0, 0],
    [1000, 0],
    [1000, 400],
    [500, 400],
    [500, 600],
    [0, 600],
  ];
  near(fieldArea(ell, [10, 10, 10, 10, 10, 10], [], angle), 980 * 380 + 480 * 200);
  // A square cut-out grows square.
  near(
    fieldArea(
      box,
      [0, 0, 0, 0],
      [
        {
          ring: [
            [400, 200],
            [500, 200],
            [500, 300],
            [400, 300],
          ],
          gap: 5,
        },
      ],
      angle,
    ),
    600_000 - 110 * 110,
  );
  // Round the tip of a spike the mitre is cut square at twice the gap: a trapezoid 320 mm high comes off.
  const needle = [
    [0, 0],
    [1000, 0],
    [1000, 600],
    [510, 600],
    [500, 300],
    [490, 600],
    [0, 600],
  ];
  const slope = 10 / 300;
  const half = 10 * Math.sqrt(1 + slope * slope);
  near(
    fieldArea(needle, [0, 0, 0, 10, 10, 0, 0], [], angle),
    600_000 - 320 * (half - 20 * slope + (half + 300 * slope)),
  );
  // A half round swells out of the box by 300 mm radius and moves concentrically.
  const round = [
    [0, 0],
    [1000, 0, 1],
    [1000, 600],
    [0, 600],
  ];
  const known = 980 * 580 + (Math.PI * 290 * 290) / 2 + 10 * 580;
  expect(Math.abs(fieldArea(round, [10, 10, 10, 10], [], angle) - known)).toBeLessThan(60);
  // A neck narrower than both its gaps closes, and the field falls into parts.
  const neck = [
    [0, 0],
    [400, 0],
    [400, 290],
    [600, 290],
    [600, 0],
    [1000, 0],
    [1000, 600],
    [600, 600],
    [600, 308],
    [400, 308],
    [400, 600],
    [0, 600],
  ];
  near(
    fieldArea(
      neck,
      neck.map(() => 10),
      [],
      angle,
    ),
    2 * 380 * 580,
  );
  // A part narrower than its gaps vanishes.
  expect(
    fieldArea(
      [
        [0, 0],
        [1000, 0],
        [1000, 15],
        [0, 15],
      ],
      [10, 10, 10, 10],
      [],
      angle,
    ),
  ).toBe(0);
});

test("a filling above the scale is found, and none where there is none", () => {
  // 3 x 400 fit into 1203, so duals of 5 reach 15.
  expect(fillsAbove([[400, 5]], 1203, 15)).toBe(false);
  expect(fillsAbove([[400, 5]], 1203, 14)).toBe(true);
  expect(
    fillsAbove(
      [
        [403, 34],
        [603, 50],
        [1203, 100],
      ],
      1209,
      101,
    ),
  ).toBe(true);
  expect(
    fillsAbove(
      [
        [403, 33],
        [603, 50],
        [1203, 100],
      ],
      1209,
      100,
    ),
  ).toBe(false);
});
