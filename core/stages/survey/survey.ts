import { LIMITS } from "../../base/limits.ts";
import type { Job, Vertex, Xy } from "../../job/job.ts";
import type { JsonPath } from "../../read/problem.ts";
import { areaUm2, coversAll, liesOutside } from "./cover.ts";
import type { SurveyFinding } from "./findings.ts";
import { readLevels } from "./levels.ts";
import { bellySides, sidesOf, turnEdges, turnRound } from "./outline.ts";
import { placeFindings } from "./place.ts";
import type { Adjustment, SurveyArea, SurveyRecord } from "./record.ts";
import { type FlatRing, type Origin, readRing, type SiteProblem } from "./ring.ts";
import type { ReadOutline, ReadRings } from "./rings.ts";
import { outlineByTape, tiesUnused } from "./tape.ts";

export type Surveyed =
  | { readonly ok: true; readonly record: SurveyRecord }
  | { readonly ok: false; readonly problems: SiteProblem[] };

/** A terrace of less than a hundredth of a square metre is a slip of the pen. */
const OUTLINE_LEAST_MM2 = 10_000;

/** On the average narrower than two usual gaps and the narrowest bit of board together, mm. */
const THIN_MM = 40;

/**
 * The site as measured: outline by coordinates or adjusted tapes, wall offsets put in, everything simple and
 * counter-clockwise, gaps resolved. A ring that cannot be is a problem with its place in the job; every one is told at
 * once. What is doubtful but can be lived with is a finding, and nothing measured is dropped without one. Lengths mm.
 */
export function surveySite(job: Job): Surveyed {
  const problems: SiteProblem[] = [];
  const findings: SurveyFinding[] = [...tiesUnused(job)];
  const taped = job.site.marks === null ? null : outlineByTape(job);
  if (taped && !taped.ok) problems.push(...taped.problems);
  if (taped?.ok) findings.push(...taped.findings);
  const given = taped?.ok ? taped.outline : job.site.outline;
  const outlinePath: JsonPath = ["site", job.site.outline === null ? "marks" : "outline"];
  const origin = originOf(given ?? job.site.cutouts[0]?.ring ?? []);
  const outline = given && readOutline(job, given, outlinePath, origin, problems);
  const rings = readRings(job, origin, problems);
  job.survey.straightedges.forEach(({ from, to }, i) => {
    if (from[0] === to[0] && from[1] === to[1]) {
      problems.push({
        path: ["survey", "straightedges", i],
        code: "straightedgeNoLength",
        data: { x: from[0], y: from[1] },
      });
    }
  });
  if (outline) checkCutouts(job, outline.flat, rings.cutouts, problems);
  if (outline) problems.push(...farOff(job, origin));
  const netAreaMm2 = outline && problems.length === 0 ? areaUm2(outline.flat, allFlat(rings.cutouts)) / 1e6 : 0;
  problems.push(...tooManyBoards(job, netAreaMm2, outlinePath));
  if (outline && problems.length === 0) problems.push(...tooThin(outline.flat, netAreaMm2, outlinePath));
  if (!outline || problems.length > 0) return { ok: false, problems };

  const levels = readLevels(job, outline.flat, origin);
  findings.push(...levels.findings, ...placeFindings(job, outline, rings, origin));
  const adjustment: Adjustment | null = taped?.ok ? taped.adjustment : null;
  const record: SurveyRecord = {
    outline: outline.ring,
    sides: outline.sides,
    cutouts: job.site.cutouts.map(({ name, ring, gap, height }, i) => {
      return { name, ring: wound(ring, rings.cutouts[i]!), gapMm: gap ?? job.gaps.edge, height };
    }),
    noDrill: areas(job.site.noDrill, rings.noDrill),
    keepClear: areas(job.site.keepClear, rings.keepClear),
    loose: job.site.loose.map(({ name, ring, kind }, i) => ({ name, ring: wound(ring, rings.loose[i]!), kind })),
    baseJoints: job.site.baseJoints.map((line) => line.map(([x, y]): Xy => [x, y])),
    slab: job.site.slab && wound(job.site.slab, rings.slab!),
    levels: levels.levels,
    straightedges: job.survey.straightedges.map(({ from, to, gap }) => ({ from, to, gapMm: gap })),
    adjustment,
    areaMm2: Math.abs(outline.flat.areaUm2) / 1e6,
    netAreaMm2,
    findings,
  };
  return { ok: true, record };
}

/** A line to the horizon would be walked along, and a reading there would weigh more than all others. */
function farOff(job: Job, origin: Origin): SiteProblem[] {
  const found: SiteProblem[] = [];
  const limit = LIMITS.extentMm;
  const judge = (path: JsonPath, [x, y]: readonly [number, number, ...number[]]): void => {
    if (Math.abs(x - origin.xMm) > limit || Math.abs(y - origin.yMm) > limit)
      found.push({ path, code: "tooFar", data: { x, y, limit } });
  };
  const { site, survey } = job;
  for (const key of ["cutouts", "noDrill", "keepClear", "loose"] as const)
    site[key].forEach(({ ring }, i) => {
      ring.forEach((at, k) => {
        judge(["site", key, i, "ring", k], at);
      });
    });
  site.slab?.forEach((at, k) => {
    judge(["site", "slab", k], at);
  });
  site.baseJoints.forEach((line, i) => {
    line.forEach((at, k) => {
      judge(["site", "baseJoints", i, k], at);
    });
  });
  survey.straightedges.forEach(({ from, to }, i) => {
    judge(["survey", "straightedges", i, "from"], from);
    judge(["survey", "straightedges", i, "to"], to);
  });
  survey.levels.forEach((at, i) => {
    judge(["survey", "levels", i], at);
  });
  return found;
}

/** Refused by the area alone, before a single board is planned: the longest boards, laid without a cut, gaps and all. */
function tooManyBoards(job: Job, areaMm2: number, path: JsonPath): SiteProblem[] {
  const longest = Math.max(0, ...job.board.lengths.map((one) => one.length));
  // a board that could not be read is told of already
  if (longest <= 0 || job.board.width <= 0) return [];
  const gap = Math.max(job.gaps.side, job.gaps.sideRange[1]);
  const boards = Math.floor(areaMm2 / ((longest + job.gaps.end) * (job.board.width + gap)));
  const areaM2 = Math.round(areaMm2 / 1e6);
  if (boards > LIMITS.boards) return [{ path, code: "tooManyBoards", data: { boards, limit: LIMITS.boards, areaM2 } }];
  const { length, clearMax, measure } = job.clips;
  const apart = clearMax + (measure === "clear" ? length : 0);
  const clips = apart > 0 ? Math.floor(areaMm2 / ((job.board.width + gap) * apart)) : 0;
  if (clips <= LIMITS.clips) return [];
  return [{ path: ["clips", "clearMax"], code: "tooManyClips", data: { clips, limit: LIMITS.clips, areaM2, apart } }];
}

/** Thinner than a needle of board all along, and so long that a plan would be nothing but a list of what stays bare. */
function tooThin({ xsUm, ysUm }: FlatRing, areaMm2: number, path: JsonPath): SiteProblem[] {
  let around = 0;
  for (let i = 0, j = xsUm.length - 1; i < xsUm.length; j = i++) {
    const dx = xsUm[i]! - xsUm[j]!;
    const dy = ysUm[i]! - ysUm[j]!;
    around += Math.sqrt(dx * dx + dy * dy) / 1000;
  }
  const length = around / 2;
  const width = areaMm2 / length;
  if (width >= THIN_MM || length <= LIMITS.thinLengthMm) return [];
  const data = { widthMm: Math.round(width), lengthM: Math.round(length / 1000), limitM: LIMITS.thinLengthMm / 1000 };
  return [{ path, code: "tooThin", data }];
}

/** The first vertex, whole millimetres: differences from it are small, so micrometres stay exact. */
function originOf(ring: readonly Vertex[]): Origin {
  const [x, y] = ring[0] ?? [0, 0];
  return { xMm: Math.round(x), yMm: Math.round(y) };
}

function readOutline(
  job: Job,
  given: readonly Vertex[],
  path: JsonPath,
  origin: Origin,
  problems: SiteProblem[],
): ReadOutline | null {
  const straight = readRing(given, path, origin, OUTLINE_LEAST_MM2);
  problems.push(...straight.problems);
  const { ring, sources, problems: offsetProblems } = bellySides(given, job.site.offsets);
  problems.push(...offsetProblems);
  if (!straight.flat || offsetProblems.length > 0) return null;
  let flat = straight.flat;
  if (ring.length > given.length) {
    const bellied = readRing(ring, path, origin, OUTLINE_LEAST_MM2);
    if (!bellied.flat) {
      problems.push(...bellied.problems.map((one) => offsetsCross(one, sources, ring)));
      return null;
    }
    flat = bellied.flat;
  }
  const trimMm = job.trim?.thickness ?? 0;
  const sides = sidesOf(job.site.sides, sources, job.gaps.edge, trimMm);
  return flat.areaUm2 > 0 ? { ring, sides, flat } : { ring: turnRound(ring), sides: turnEdges(sides), flat };
}

/** The outline itself was sound: whatever crosses now, the offsets brought about. */
function offsetsCross(problem: SiteProblem, sources: readonly number[], ring: readonly Vertex[]): SiteProblem {
  const step = problem.path[2];
  const at = typeof step === "number" ? step : 0;
  const data = { side: sources[at] ?? 0, x: ring[at]?.[0] ?? 0, y: ring[at]?.[1] ?? 0 };
  return { path: ["site", "offsets"], code: "offsetsCross", data };
}

function readRings(job: Job, origin: Origin, problems: SiteProblem[]): ReadRings {
  const one = (ring: readonly Vertex[], path: JsonPath): FlatRing | null => {
    const read = readRing(ring, path, origin, 0);
    problems.push(...read.problems);
    return read.flat;
  };
  const many = (key: "cutouts" | "noDrill" | "keepClear" | "loose"): (FlatRing | null)[] =>
    job.site[key].map((area, i) => one(area.ring, ["site", key, i, "ring"]));
  return {
    cutouts: many("cutouts"),
    noDrill: many("noDrill"),
    keepClear: many("keepClear"),
    loose: many("loose"),
    slab: job.site.slab && one(job.site.slab, ["site", "slab"]),
  };
}

/** A cut-out may cross the outline (a downpipe in the wall) but not miss it, and together they must leave something. */
function checkCutouts(
  job: Job,
  outline: FlatRing,
  cutouts: readonly (FlatRing | null)[],
  problems: SiteProblem[],
): void {
  cutouts.forEach((flat, i) => {
    if (!flat || !liesOutside(flat, outline)) return;
    problems.push({ path: ["site", "cutouts", i], code: "cutoutOutside", data: { name: job.site.cutouts[i]!.name } });
  });
  const flats = allFlat(cutouts);
  if (flats.length === cutouts.length && coversAll(outline, flats)) {
    problems.push({ path: ["site", "cutouts"], code: "cutoutsCoverAll", data: { cutouts: flats.length } });
  }
}

function allFlat(rings: readonly (FlatRing | null)[]): FlatRing[] {
  return rings.filter((ring) => ring !== null);
}

function wound(ring: readonly Vertex[], flat: FlatRing): Vertex[] {
  return flat.areaUm2 > 0 ? [...ring] : turnRound(ring);
}

function areas(given: readonly { name: string; ring: Vertex[] }[], flats: readonly (FlatRing | null)[]): SurveyArea[] {
  return given.map(({ name, ring }, i) => ({ name, ring: wound(ring, flats[i]!) }));
}
