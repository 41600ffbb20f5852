import { lengthChangeMm } from "../core/base/expansion.ts";
import { loadJob } from "../core/plan/load.ts";
import { chooseBond } from "../core/stages/bond/bond.ts";
import { fixClips } from "../core/stages/fixing/fixing.ts";
import type { FixingRecord } from "../core/stages/fixing/record.ts";
import { setOut } from "../core/stages/setout/setout.ts";
import { DRY_UPSTAND_MM, judgeDoors, LEVEL_UPSTAND_MM } from "../core/stages/site/doors.ts";
import type { Proof } from "./proof.ts";

const PRACTICE = "rule of thumb for one square metre: five boards of 1200 mm one above the other";
const SPACING = "clip distance clear between bodies or centre to centre: a half-bond 1200 mm board, two clips or four";

/** Lays a rectangle of boards 160 x 1200 mm with default rules: set-out, bond and clips as in every plan. */
function fixed(widthMm: number, rows: number, more: Record<string, unknown>): { boards: number; fixing: FixingRecord } {
  const height = rows * 165 - 5 + 20;
  const outline = [
    [0, 0],
    [widthMm + 20, 0],
    [widthMm + 20, height],
    [0, height],
  ];
  const raw = {
    format: "rowline/job@1",
    title: "Module",
    site: { outline },
    board: { lengths: [{ length: 1200, price: 1000 }], width: 160, rise: 22 },
    ...more,
  };
  const loaded = loadJob(JSON.stringify(raw), "module");
  if (!loaded.ok) throw new Error("the module's job is not read");
  const { read, survey } = loaded.value;
  const setout = setOut(read.job, survey, { surface: null, findings: [] });
  const bond = chooseBond(read.job, setout);
  return { boards: bond.pieces.length, fixing: fixClips(read.job, setout, bond) };
}

/** Clips on an inner seam that one board more in half bond needs. */
function clipsABoard(measure: "clear" | "centre"): number {
  const inner = (boards: number): number => {
    const more = { clips: { measure }, bond: { angle: 0, kind: "half" } };
    const { fixing } = fixed(boards * 1205 - 5, 3, more);
    return fixing.clips.filter((clip) => clip.seam === 1 && clip.kind === "seam").length;
  };
  return inner(8) - inner(7);
}

const module = fixed(1200, 5, { bond: { angle: 0, kind: "stack" } });
const { counts } = module.fixing;
const door = judgeDoors(
  {
    outline: [
      [0, 0, 0],
      [1000, 0, 0],
      [0, 1000, 0],
    ],
    sides: [{ kind: "door", gap: null, sill: 40, opens: "out", leafClear: 15, gapMm: 10, source: 0 }],
  } as unknown as Parameters<typeof judgeDoors>[0],
  25,
);
const whole = "a count: it must be met";

/** Clips of the square-metre module, the two ways of measuring their distance, growth, doors. */
export const fixingProofs: Proof[] = [
  practice("module-boards", "boards of the 1 m2 module", PRACTICE, 5, module.boards, 0, whole),
  practice("module-seam", "clips between rows, 8 to 10", PRACTICE, 9, counts.seam, 1, "the rule of thumb is a range"),
  practice("module-start", "start clips, 3 to 4", PRACTICE, 3.5, counts.start, 0.5, "the rule of thumb is a range"),
  practice("module-last", "clips closing the last row", PRACTICE, 3, counts.last, 0, whole),
  practice(
    "module-seam-160",
    "the same with a 160 mm board and the default clip rules",
    PRACTICE,
    8,
    counts.seam,
    0,
    whole,
  ),
  practice("module-start-160", "its start clips", PRACTICE, 3, counts.start, 0, whole),
  practice(
    "module-ends",
    "an end clip at both ends of every row",
    "row ends screwed to the base",
    10,
    counts.end,
    0,
    whole,
  ),
  practice(
    "half-clear",
    "clips a board and seam, 500 mm clear between bodies",
    SPACING,
    2,
    clipsABoard("clear"),
    0,
    whole,
  ),
  practice(
    "half-centre",
    "clips a board and seam, 500 mm centre to centre",
    SPACING,
    4,
    clipsABoard("centre"),
    0,
    whole,
  ),
  {
    id: "growth-concrete",
    claim: "growth of 20 m of concrete at 11e-6/K over 20 K",
    source: "concrete expansion example, 11e-6 x 20 m x 20 K",
    status: "2nd",
    published: 4.4,
    ours: lengthChangeMm(11e-6, 20_000, 20),
    allowed: 1e-9,
    unit: "mm",
    why: "the same product; rounding of doubles only",
  },
  {
    id: "growth-board",
    claim: "growth of a 4 m composite board at EN 15534-4's largest coefficient, 50e-6/K, over 40 K",
    source: "EN 15534-4, at most 50e-6/K; product recomputed by hand",
    status: "RECOMPUTED",
    published: 8,
    ours: lengthChangeMm(50e-6, 4000, 40),
    allowed: 1e-9,
    unit: "mm",
    why: "the same product; rounding of doubles only",
  },
  {
    id: "door-level",
    claim: "largest upstand of a level threshold that door findings quote",
    source: "NHBC Standards 2020, 7.1.11",
    status: "READ",
    published: 15,
    ours: LEVEL_UPSTAND_MM,
    allowed: 0,
    unit: "mm",
    why: "a quoted figure",
  },
  {
    id: "door-dry",
    claim: "least height of a sill over the floor that door findings quote",
    source: "NHBC Standards 2020, 7.1.11",
    status: "READ",
    published: 75,
    ours: DRY_UPSTAND_MM,
    allowed: 0,
    unit: "mm",
    why: "a quoted figure",
  },
  practice(
    "door-step",
    "step left at a sill of 40 mm over boards of 25 mm",
    "a floor higher by the board's rise changes every step by it",
    15,
    door.doors[0]!.stepAfterMm ?? Number.NaN,
    0,
    "a difference of whole millimetres",
    "mm",
  ),
];

function practice(
  id: string,
  claim: string,
  matter: string,
  published: number,
  ours: number,
  allowed: number,
  why: string,
  unit = "pc",
): Proof {
  const source = `common practice, no source: ${matter}`;
  return { id: `fixing-${id}`, claim, source, status: "practice", published, ours, allowed, unit, why };
}
