import type { FindingsOf } from "../../base/finding.ts";
import { type BaseMesh, meshBase } from "../../geometry/base-mesh.ts";
import { failingAreas, type LocalFall, localFalls } from "../../geometry/local-falls.ts";
import { fitPlane, planeOf } from "../../geometry/plane.ts";
import { type BarRest, searchStraightedge } from "../../geometry/straightedge.ts";
import type { Job } from "../../job/job.ts";
import { partAreas, ringsWithin } from "../../solve/facet-rings.ts";
import { findParts, type PlanePart, partAt } from "../../solve/facets.ts";
import { minimumZone } from "../../solve/minimum-zone.ts";
import type { SurveyRecord } from "../survey/record.ts";
import { isPreparation, judgeDeclared } from "./declared.ts";
import { barLength, barOf, unevenAreas, unevenReadings } from "./evenness.ts";
import type { SurfaceFindings } from "./findings.ts";
import { oddReadings, readingsOf, tooFew } from "./readings.ts";
import type { Facet, SurfaceRecord, SurfaceStage, Xyz } from "./record.ts";
import { fallsToHouse, judgeWater, waterOn } from "./water.ts";

type Found = FindingsOf<SurfaceFindings>;

/** A grid of readings wider than this cannot prove evenness without a straightedge, mm. */
const GRID_MM = 500;
/** A square grid's middles lie its width over root two from a reading; a hair for the last digits. */
const GRID_FACTOR = Math.SQRT2;
/** Falls of the ground are taken over a disc of at least this radius, mm. */
const LOCAL_RADIUS_MM = 1000;
const HAIR = 1e-6;
/** A fall short by less than this, %, is half a millimetre a metre: less than readings tell, and accepted in writing. */
const SLIGHT_FALL = 0.05;
/** One plane misses by more than this many standard deviations of a level before a ridge is looked for. */
const PART_SIGMAS = 3;

/**
 * Judges the base from its spot levels and straightedge readings: planes, zone, largest straightedge gap, facets, falls,
 * puddles, and a verdict with a finding at the place of every breach. Without levels (or with too few to span a plane)
 * the surface is null and a finding says so; what is declared about the base is judged all the same. Lengths mm, site frame.
 */
export function judgeSurface(job: Job, survey: SurveyRecord): SurfaceStage {
  const findings: Found[] = [...judgeDeclared(job, survey), ...unevenReadings(job, survey)];
  const mesh = meshBase(survey, survey.levels);
  const points = mesh ? readingsOf(mesh) : [];
  const plane = fitPlane(points);
  const zone = minimumZone(points);
  const parts = mesh ? findParts(points, partTolerance(job)) : null;
  if (!mesh || !plane || !zone || !parts) {
    findings.push(tooFew(survey));
    return { surface: null, findings };
  }
  findings.push(...oddReadings(job, survey, mesh));

  const { limits } = job.base;
  const bars = searchStraightedge(mesh, limits.straightedge, limits.unevenness);
  findings.push(...unevenAreas(bars.over, limits.unevenness, limits.straightedge));
  findings.push(...judgeParts(job, parts));

  const falls = localFalls(mesh, Math.max(LOCAL_RADIUS_MM, 1.5 * mesh.spacingMm), (i) =>
    partAt(parts, mesh.x[i]!, mesh.y[i]!),
  );
  findings.push(...flatAreas(mesh, falls, limits.fallLocalMin));
  const water = waterOn(mesh, survey);
  findings.push(...fallsToHouse(survey, parts, water.shut.length > 0));
  findings.push(...judgeWater(water, survey));
  const gridMm = mesh.spacingMm * GRID_FACTOR;
  const proven = survey.straightedges.length > 0 || gridMm <= GRID_MM + 0.5;
  if (!proven) findings.push(notProven(gridMm));

  const surface: SurfaceRecord = {
    points: Array.from(mesh.x, (x, i): Xyz => [x, mesh.y[i]!, mesh.z[i]!]),
    triangles: trianglesOf(mesh, 1),
    edgeTriangles: trianglesOf(mesh, 0),
    plane,
    zone: {
      ...planeOf(zone.a, zone.b, zone.c),
      halfWidthMm: zone.halfWidth,
      points: zone.certificate.map((p) => points[p.index]!),
      weights: zone.certificate.map((p) => p.weight),
    },
    straightedge: worstBar(limits.straightedge, bars.worst, survey),
    facets: facetsOf(survey, mesh, parts),
    puddles: water.puddles.map(({ at, depthMm, areaMm2, volumeMm3, ring }) => ({
      at,
      depthMm,
      areaMm2,
      volumeMm3,
      ring,
    })),
    falls: arrows(mesh, falls),
    spacingMm: mesh.spacingMm,
    ...verdictOf(findings, proven),
  };
  return { surface, findings };
}

function partTolerance(job: Job): number {
  return Math.max(1, PART_SIGMAS * job.survey.sigma.level);
}

/** Deviation and falls of each part of the base. */
function judgeParts(job: Job, parts: readonly PlanePart[]): Found[] {
  const { deviation, fallMin, fallMax } = job.base.limits;
  const found: Found[] = [];
  const facets = parts.length;
  for (const [facet, part] of parts.entries()) {
    const { fall } = part.plane;
    const at = part.middle;
    const common = { level: "warn", releasedBy: null } as const;
    if (part.zone.halfWidth > deviation + HAIR) {
      const data = { halfWidthMm: part.zone.halfWidth, limitMm: deviation, facet, facets };
      found.push({
        ...common,
        code: "deviation",
        rule: "deviation",
        at: part.worstAt,
        found: part.zone.halfWidth,
        limit: deviation,
        data,
      });
    }
    if (fall < fallMin - HAIR) {
      found.push({
        ...common,
        releasedBy: fallMin - fall < SLIGHT_FALL ? "document" : null,
        code: "fall",
        rule: "fall",
        at,
        found: fall,
        limit: fallMin,
        data: { fall, limit: fallMin, facet, facets },
      });
    }
    if (fall > fallMax + HAIR) {
      found.push({
        ...common,
        code: "fallMax",
        rule: "fallMax",
        at,
        found: fall,
        limit: fallMax,
        data: { fall, limit: fallMax, facet, facets },
      });
    }
  }
  return found;
}

/** Ground that falls too little, merged into areas; the place is its flattest reading. */
function flatAreas(mesh: BaseMesh, falls: readonly LocalFall[], limit: number): Found[] {
  const flat = new Map<number, number>();
  for (const f of falls) if (f.plane.fall < limit - HAIR) flat.set(f.point, -f.plane.fall);
  return failingAreas(mesh, flat).map(({ worst, areaMm2 }) => {
    const fall = -flat.get(worst)!;
    return {
      ...({
        code: "fallLocal",
        rule: "fallLocal",
        level: "warn",
        at: [mesh.x[worst]!, mesh.y[worst]!] as const,
      } as const),
      found: fall,
      limit,
      releasedBy: null,
      data: { fall, limit, areaMm2 },
    };
  });
}

function notProven(gridMm: number): Found {
  const data = { spacingMm: gridMm, limitMm: GRID_MM };
  const common = { level: "warn", at: null, found: gridMm, limit: GRID_MM, releasedBy: "reading" } as const;
  return { ...common, code: "notProven", rule: "notProven", data };
}

function trianglesOf(mesh: BaseMesh, measured: 0 | 1): number[] {
  const out: number[] = [];
  for (let e = 0; e < mesh.corners.length; e++)
    if (mesh.measured[Math.floor(e / 3)] === measured) out.push(mesh.corners[e]!);
  return out;
}

/** The largest gap, computed or read with a real bar. */
function worstBar(lengthMm: number, worst: BarRest | null, survey: SurveyRecord): SurfaceRecord["straightedge"] {
  let best = worst ? { lengthMm, ...worst } : null;
  for (const s of survey.straightedges) {
    if (s.gapMm > (best?.gapMm ?? 0)) best = { lengthMm: barLength(s), ...barOf(s) };
  }
  return best;
}

function facetsOf(survey: SurveyRecord, mesh: BaseMesh, parts: readonly PlanePart[]): Facet[] {
  const areas = partAreas(mesh, parts);
  return parts.flatMap((part, k) =>
    ringsWithin(survey.outline, part.within).map((ring) => ({
      ring,
      plane: part.plane,
      halfWidthMm: part.zone.halfWidth,
      areaMm2: areas[k]!,
    })),
  );
}

/** One arrow a square metre at most. */
function arrows(mesh: BaseMesh, falls: readonly LocalFall[]): SurfaceRecord["falls"] {
  const taken = new Set<string>();
  const out: SurfaceRecord["falls"] = [];
  for (const f of falls) {
    const [x, y] = [mesh.x[f.point]!, mesh.y[f.point]!];
    const cell = `${Math.floor(x / 1000)},${Math.floor(y / 1000)}`;
    if (taken.has(cell)) continue;
    taken.add(cell);
    out.push({ at: [x, y], fall: f.plane.fall, towards: f.plane.towards });
  }
  return out;
}

/** The worst that was found decides; the shape's own verdict leaves out what is declared or hidden. */
function verdictOf(findings: readonly Found[], proven: boolean): Pick<SurfaceRecord, "verdict" | "shapeVerdict"> {
  const open = !proven || findings.some((f) => f.code === "noOutlet");
  const shape = findings.some(isPreparation) ? "prepare" : open ? "not-proven" : "accept";
  const stop = findings.some((f) => f.level === "stop");
  const unsure = findings.some((f) => f.code === "firmUnknown");
  return { shapeVerdict: shape, verdict: stop ? "stop" : shape === "accept" && unsure ? "not-proven" : shape };
}
