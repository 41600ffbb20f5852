import { toUm } from "../../base/units.ts";
import type { Job } from "../../job/job.ts";
import { boxOf } from "./cover.ts";
import type { SurveyFinding } from "./findings.ts";
import type { SurveyRecord } from "./record.ts";
import { type FlatRing, type Origin, whereIs } from "./ring.ts";
import { robustPlane } from "./robust.ts";

type Level = SurveyRecord["levels"][number];
/** Nearer than this two readings stand at one place, um. */
const SAME_PLACE_UM = 1000;
/** A base 300 mm off its own plane is a reading gone wrong before it is a base. */
const FAR_MM = 300;
const FAR_SCALES = 10;
/** More than this share far off is no longer a slip but a step in the base: all count. */
const FAR_SHARE = 0.2;
/** So many single readings are named; the sentences of the rest would be the same. */
const NAMED = 20;

/**
 * Levels that count, in the order given, and what is odd about them: two at one place, one far off (a misplaced decimal
 * point is said to be one), far away or outside. Those left out of the count are named in a finding; the job keeps all.
 */
export function readLevels(
  job: Job,
  outline: FlatRing,
  origin: Origin,
): { levels: Level[]; findings: SurveyFinding[] } {
  const given = job.survey.levels.map(([xMm, yMm, zMm]): Level => ({ xMm, yMm, zMm }));
  const findings: SurveyFinding[] = [];
  const here = given.filter((level) => !isAway(level, outline, origin, findings));
  const single = mergeTwice(here, job.survey.sigma.level, findings);
  const levels = dropFar(single, findings);
  findings.push(...outsideFinding(levels, outline, origin));
  return { levels, findings };
}

const WARN = { rule: "survey", level: "warn", releasedBy: "reading" } as const;

/** Farther from the outline's box than the box is long: a slip in x or y, not a reading beside the terrace. */
function isAway(level: Level, outline: FlatRing, origin: Origin, findings: SurveyFinding[]): boolean {
  const box = boxOf(outline);
  const reach = Math.max(box.x1 - box.x0, box.y1 - box.y0, 5_000_000);
  const [x, y] = [toUm(level.xMm - origin.xMm), toUm(level.yMm - origin.yMm)];
  const away = Math.max(box.x0 - x, x - box.x1, box.y0 - y, y - box.y1);
  if (away <= reach) return false;
  if (findings.length < NAMED) {
    const data = { x: level.xMm, y: level.yMm, distance: Math.round(away / 1000) };
    findings.push({
      ...WARN,
      code: "levelAway",
      at: [level.xMm, level.yMm],
      found: data.distance,
      limit: Math.round(reach / 1000),
      data,
    });
  }
  return true;
}

/** Readings at one place become their mean; said where they differ by more than readings do. */
function mergeTwice(levels: readonly Level[], sigmaMm: number, findings: SurveyFinding[]): Level[] {
  const groups = new Map<string, Level[]>();
  for (const level of levels) {
    const key = `${Math.round(toUm(level.xMm) / SAME_PLACE_UM)},${Math.round(toUm(level.yMm) / SAME_PLACE_UM)}`;
    const group = groups.get(key);
    if (group) group.push(level);
    else groups.set(key, [level]);
  }
  if (groups.size === levels.length) return [...levels];
  // three standard deviations of a difference of two readings
  const limit = 3 * sigmaMm * Math.SQRT2;
  const out: Level[] = [];
  for (const group of groups.values()) {
    const first = group[0]!;
    if (group.length === 1) {
      out.push(first);
      continue;
    }
    const heights = group.map((one) => one.zMm).sort((a, b) => a - b);
    const [least, most] = [heights[0]!, heights[heights.length - 1]!];
    const used = round(heights.reduce((sum, z) => sum + z, 0) / heights.length);
    out.push({ ...first, zMm: used });
    const data = { x: first.xMm, y: first.yMm, readings: group.length, least, most, used };
    const level = most - least > limit ? "warn" : "note";
    if (level === "note" && least === most) continue;
    findings.push({
      ...WARN,
      level,
      code: "levelTwice",
      at: [first.xMm, first.yMm],
      found: round(most - least),
      limit: round(limit),
      data,
    });
  }
  return out;
}

function dropFar(levels: readonly Level[], findings: SurveyFinding[]): Level[] {
  const plane = robustPlane(levels);
  if (!plane) return [...levels];
  const limit = Math.max(FAR_MM, FAR_SCALES * plane.scaleMm);
  const off = levels.map((level) => level.zMm - plane.at(level.xMm, level.yMm));
  const far = off.filter((one) => Math.abs(one) > limit).length;
  if (far === 0 || far > Math.max(1, FAR_SHARE * levels.length)) return [...levels];
  let named = 0;
  return levels.filter((level, i) => {
    const offMm = off[i]!;
    if (Math.abs(offMm) <= limit) return true;
    if (named++ < NAMED) findings.push(farFinding(level, offMm, limit, plane.at(level.xMm, level.yMm), plane.scaleMm));
    return false;
  });
}

function farFinding(
  { xMm: x, yMm: y, zMm: z }: Level,
  offMm: number,
  limit: number,
  expected: number,
  scaleMm: number,
): SurveyFinding {
  const common = { ...WARN, at: [x, y] as const, found: round(offMm), limit: round(limit) };
  // ten, a hundred or a thousand times too much or too little; metres written for millimetres are among them
  const likely = [10, 100, 1000, 0.1, 0.01, 0.001]
    .map((factor) => z * factor)
    .filter((one) => Math.abs(one - expected) < Math.max(3, 3 * scaleMm))
    .sort((a, b) => Math.abs(a - expected) - Math.abs(b - expected))[0];
  if (likely !== undefined && z !== 0) {
    return { ...common, code: "levelDecimal", data: { x, y, z, likely: round(likely), off: round(offMm) } };
  }
  return { ...common, code: "levelFar", data: { x, y, z, off: round(offMm), limit: round(limit) } };
}

/** Readings beside the terrace stay: they tell how the base runs on. Counted on a grid-sized sample of the outline's own cost. */
function outsideFinding(levels: readonly Level[], outline: FlatRing, origin: Origin): SurveyFinding[] {
  // with so many readings times corners the count would cost more than it says
  if (levels.length * outline.xsUm.length > 5e7) return [];
  const box = boxOf(outline);
  let count = 0;
  let farthest = 0;
  let at: readonly [number, number] | null = null;
  for (const { xMm, yMm } of levels) {
    const [x, y] = [toUm(xMm - origin.xMm), toUm(yMm - origin.yMm)];
    if (whereIs(outline, x, y) !== -1) continue;
    count++;
    const away = Math.max(0, box.x0 - x, x - box.x1, box.y0 - y, y - box.y1) / 1000;
    if (at === null || away > farthest) at = [xMm, yMm];
    farthest = Math.max(farthest, away);
  }
  if (at === null) return [];
  const data = { count, farthest: Math.round(farthest) };
  return [
    { rule: "survey", level: "note", releasedBy: null, code: "levelsOutside", at, found: count, limit: null, data },
  ];
}

function round(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}
