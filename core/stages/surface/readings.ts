import type { FindingsOf } from "../../base/finding.ts";
import type { BaseMesh } from "../../geometry/base-mesh.ts";
import type { Job } from "../../job/job.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { SurfaceFindings } from "./findings.ts";
import type { Xyz } from "./record.ts";

type Found = FindingsOf<SurfaceFindings>;
/** Two readings of one place differ by no more than this many standard deviations of their difference. */
const SIGMAS = 3;

/** Levels that count, in the mesh's order; places read twice stand at their mean. */
export function readingsOf(mesh: BaseMesh): Xyz[] {
  const out: Xyz[] = [];
  for (let i = 0; i < mesh.x.length; i++) if (mesh.reading[i]! >= 0) out.push([mesh.x[i]!, mesh.y[i]!, mesh.z[i]!]);
  return out;
}

/** Too few levels to span a plane, or none. */
export function tooFew(survey: SurveyRecord): Found {
  const whole = { at: null, limit: 3, releasedBy: "reading", level: "warn", rule: "noLevels" } as const;
  const count = survey.levels.length;
  if (count === 0) return { ...whole, code: "noLevels", found: 0, data: {} };
  return { ...whole, code: "fewLevels", found: count, data: { count, onOneLine: count >= 3 } };
}

/** Readings that lie outside and do not count, and places read twice with different heights. */
export function oddReadings(job: Job, survey: SurveyRecord, mesh: BaseMesh): Found[] {
  const found: Found[] = [];
  const counted = new Set<string>();
  for (let i = 0; i < mesh.x.length; i++) if (mesh.reading[i]! >= 0) counted.add(placeKey(mesh.x[i]!, mesh.y[i]!));
  let outside = 0;
  const heights = new Map<string, { low: number; high: number; at: [number, number] }>();
  for (const { xMm, yMm, zMm } of survey.levels) {
    const key = placeKey(xMm, yMm);
    if (!counted.has(key)) outside++;
    const h = heights.get(key);
    if (h) {
      h.low = Math.min(h.low, zMm);
      h.high = Math.max(h.high, zMm);
    } else heights.set(key, { low: zMm, high: zMm, at: [xMm, yMm] });
  }
  if (outside > 0) {
    const data = { count: outside };
    found.push({
      code: "levelsOutside",
      rule: "levels",
      level: "note",
      at: null,
      found: outside,
      limit: null,
      releasedBy: null,
      data,
    });
  }
  const allowed = SIGMAS * Math.SQRT2 * job.survey.sigma.level;
  for (const { low, high, at } of heights.values()) {
    const differenceMm = high - low;
    if (differenceMm <= allowed) continue;
    const data = { differenceMm };
    found.push({
      code: "levelTwice",
      rule: "levels",
      level: "warn",
      at,
      found: differenceMm,
      limit: allowed,
      releasedBy: "reading",
      data,
    });
  }
  return found;
}

function placeKey(x: number, y: number): string {
  return `${Math.round(x * 100) + 0},${Math.round(y * 100) + 0}`;
}
