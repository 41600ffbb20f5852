import { describe, expect, it } from "vitest";
import { cautions } from "../../../words/en/cautions.ts";
import { toUm } from "../../base/units.ts";
import { frameAt } from "../../geometry/frame.ts";
import type { Confirmation, Job, Side, Unknowable } from "../../job/job.ts";
import { sampleJob, sampleTerrace } from "../fixing/samples.ts";
import type { SetoutRecord } from "../setout/record.ts";
import type { SurfaceStage } from "../surface/record.ts";
import type { SurveyRecord } from "../survey/record.ts";
import { judgeSite } from "./site.ts";

type Told = Partial<Side> & { kind: Side["kind"] };
const OPEN: Told = { kind: "open" };
const WALL: Told = { kind: "wall" };

/** A square of 4 m; sides: south, east, north, west. */
function survey(sides: Told[], more: Partial<SurveyRecord> = {}): SurveyRecord {
  return {
    outline: [
      [0, 0, 0],
      [4000, 0, 0],
      [4000, 4000, 0],
      [0, 4000, 0],
    ],
    sides: sides.map((side, source) => ({
      ...{ gap: null, sill: null, opens: null, leafClear: null, gapMm: 10, source },
      ...side,
    })),
    cutouts: [],
    noDrill: [],
    keepClear: [],
    loose: [],
    baseJoints: [],
    slab: null,
    levels: [],
    straightedges: [],
    adjustment: null,
    areaMm2: 16e6,
    netAreaMm2: 16e6,
    findings: [],
    ...more,
  };
}

function falling(fall: number, towards: number): SurfaceStage {
  const plane = { a: 0, b: 0, c: 0, fall, towards };
  return {
    surface: {
      points: [
        [0, 0, 0],
        [4000, 0, 0],
        [4000, 4000, 0],
        [0, 4000, 0],
      ],
      triangles: [],
      plane,
      zone: { ...plane, halfWidthMm: 0, points: [], weights: [] },
      straightedge: null,
      facets: [],
      puddles: [],
      falls: [],
      spacingMm: 400,
      verdict: "accept",
      shapeVerdict: "accept",
      edgeTriangles: [],
    },
    findings: [],
  };
}
const NO_LEVELS: SurfaceStage = { surface: null, findings: [] };

function turned(deg: number): SetoutRecord {
  const { setout } = sampleTerrace([{ boards: [1200] }]);
  return { ...setout, frame: frameAt(0, 0, deg), fieldAreaUm2: toUm(4000) * toUm(4000) };
}

const codes = (job: Job, s: SurveyRecord, surface = NO_LEVELS, deg = 0): string[] =>
  judgeSite(job, s, surface, turned(deg)).findings.map((f) => f.code);

function base(more: Record<string, unknown>): Job {
  return sampleJob({ base: more, board: { rise: 25 } });
}

describe("judgeSite", () => {
  it("stops where a leaf that opens outward meets the boards, and states the step that is left", () => {
    const door = (leafClear: number | null, opens: "in" | "out" | null, sill: number | null) =>
      judgeSite(base({}), survey([{ kind: "door", leafClear, opens, sill }, OPEN, OPEN, OPEN]), NO_LEVELS, turned(0));
    const hit = door(15, "out", 40);
    expect(hit.doors).toEqual([{ side: 0, at: [2000, 0], sillMm: 40, stepAfterMm: 15, leafClearMm: 15 }]);
    expect(hit.findings.filter((f) => f.level === "stop").map((f) => f.code)).toEqual(["doorLeaf"]);
    for (const [clear, opens] of [
      [26, "out"],
      [15, "in"],
    ] as const)
      expect(door(clear, opens, 40).findings.some((f) => f.code === "doorLeaf")).toBe(false);
    expect(door(15, null, 40).findings.find((f) => f.code === "doorLeaf")?.level).toBe("warn");
    expect(door(null, "out", 40).findings.map((f) => f.code)).toContain("leafUnknown");
    expect(door(60, "out", 25).findings.map((f) => f.code)).toContain("doorSill");
    expect(door(60, "out", 25.1).findings.map((f) => f.code)).not.toContain("doorSill");
    expect(door(60, "out", null).findings.map((f) => f.code)).toContain("sillUnknown");
  });

  it("names every guard of a suspended base, and none on the ground", () => {
    const sides = [OPEN, WALL, OPEN, WALL];
    expect(codes(base({ suspended: true }), survey(sides)).filter((c) => c === "guardRise").length).toBe(2);
    expect(codes(base({ suspended: true }), survey([WALL, WALL, WALL, WALL]))).toContain("guardRise");
    expect(codes(base({}), survey(sides))).not.toContain("guardRise");
  });

  it("releases drilling only when all three are known to be absent or answered for by name", () => {
    const answer = (of: Confirmation["of"], by: string): Confirmation => ({ of, by, on: "2026-03-02", says: "none" });
    const job = (membrane: Unknowable, confirmed: Confirmation[] = []): Job => {
      const made = base({});
      return { ...made, base: { ...made.base, membrane, heating: false, tendons: false, confirmed } };
    };
    const released = (j: Job): boolean =>
      judgeSite(j, survey([OPEN, OPEN, OPEN, OPEN]), NO_LEVELS, turned(0)).drillingReleased;
    expect(released(job(false))).toBe(true);
    expect(released(job("unknown"))).toBe(false);
    expect(released(job(true))).toBe(false);
    expect(released(job(true, [answer("membrane", "A. Person")]))).toBe(true);
    expect(released(job(true, [answer("membrane", "  ")]))).toBe(false);
    expect(released(job(true, [answer("heating", "A. Person")]))).toBe(false);
    expect(released(base({}))).toBe(false);
  });

  it("warns of channels across the fall, and of none down it, whichever way all is turned", () => {
    const open = survey([OPEN, OPEN, OPEN, OPEN]);
    for (const deg of [0, 30, 90, 215]) {
      expect(codes(base({}), open, falling(2, deg), deg)).not.toContain("channelsAcross");
      expect(codes(base({}), open, falling(2, deg + 90), deg)).toContain("channelsAcross");
      expect(codes(base({}), open, falling(0.2, deg + 90), deg)).not.toContain("channelsAcross");
    }
    const across = sampleJob({ board: { channels: "across" } });
    expect(codes(across, open, falling(2, 90))).not.toContain("channelsAcross");
    expect(codes(across, open, falling(2, 0))).toContain("channelsAcross");
    const off = judgeSite(base({}), open, falling(2, 70), turned(0)).findings.find((f) => f.code === "channelsAcross");
    expect(off?.data).toEqual({ alongFall: 0.68, fall: 2, limit: 1, offDeg: 70 });
  });

  it("finds channels that end at a wall, trim that dams, and a slope without an outlet, downhill only", () => {
    const trim = { length: 2400, price: 0, leg: 40, thickness: 2, screwSpacing: 300 };
    const dam = sampleJob({ trim: { ...trim, vent: false } });
    const sides = [WALL, OPEN, WALL, WALL];
    expect(codes(dam, survey(sides), falling(2, 0))).toEqual(expect.arrayContaining(["trimDams"]));
    expect(codes(dam, survey(sides), falling(2, 180))).not.toContain("trimDams");
    expect(codes(sampleJob({ trim: { ...trim, vent: true } }), survey(sides), falling(2, 0))).not.toContain("trimDams");
    expect(codes(dam, survey(sides), falling(2, 180))).toEqual(
      expect.arrayContaining(["channelsBlind", "outletMissing"]),
    );
    expect(codes(dam, survey(sides), falling(2, 0))).not.toContain("outletMissing");
    const gully = { name: "gully", ring: [[100, 100, 0] as const], gapMm: 5, height: "removable" as const };
    expect(codes(dam, survey(sides, { cutouts: [gully] }), falling(2, 180))).not.toContain("outletMissing");
  });

  it("warns where the end gap is less than the longest board's growth in the sun", () => {
    const long = (length: number): Job =>
      sampleJob({ board: { lengths: [{ length, price: 1, pack: 1, stock: null }], expansion: 4e-5 } });
    const open = survey([OPEN, OPEN, OPEN, OPEN]);
    // 4e-5 x 3125 mm x 40 K = 5 mm, the end gap
    expect(codes(long(3125), open)).not.toContain("endGapCloses");
    expect(codes(long(3200), open)).toContain("endGapCloses");
  });

  it("calls for the cautions the job's own hazards call for, each with a sentence", () => {
    const plain = judgeSite(base({}), survey([OPEN, OPEN, OPEN, OPEN]), NO_LEVELS, turned(0)).cautions;
    expect(plain).toContain("silica");
    for (const code of ["asbestos", "edgeHeight", "poolSlips", "wetCement"] as const) expect(plain).not.toContain(code);
    const loose = [{ name: "tiles", ring: [], kind: "tiles" }];
    const all = judgeSite(
      base({ suspended: true }),
      survey([{ kind: "pool" }, OPEN, OPEN, OPEN], { loose }),
      NO_LEVELS,
      turned(0),
    );
    expect(all.cautions).toEqual(
      expect.arrayContaining(["asbestos", "edgeHeight", "load", "peopleBelow", "poolSlips", "wetCement"]),
    );
    for (const code of all.cautions) expect(cautions[code].length).toBeGreaterThan(40);
  });
});
