import { toUm } from "../../base/units.ts";
import type { Job } from "../../job/job.ts";
import { boxOf } from "./cover.ts";
import type { SurveyFinding } from "./findings.ts";
import type { SurveyRecord } from "./record.ts";
import { onRim, ontoRim } from "./rim.ts";
import { type FlatRing, type Origin, whereIs } from "./ring.ts";
import { robustPlane } from "./robust.ts";

type Level = SurveyRecord["levels"][number];
/** Nearer than this two readings stand at one place, um. */
const SAME_PLACE_UM = 1000;
/** More places along one axis than readings kept can lie apart. */
const PLACES = 67_108_864;
/** A base 300 mm off its own plane is a reading gone wrong before it is a base. */
const FAR_MM = 300;
const FAR_SCALES = 10;
/** More than this share far off is no longer a slip but a step in the base: all count. */
const FAR_SHARE = 0.2;
/** Nearer to the outline than this, or than the tape tells, a reading is on the base, mm. */
const RIM_MM = 2;
/** With more readings times corners a search of the outline would cost more than it gives. */
const RIM_STEPS = 5e7;
/** So many single readings are named, the worst first; of the rest it is said how many they are. */
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
  const away = dropAway(given, outline, origin);
  const single = mergeTwice(away.levels, job.survey.sigma.level, origin);
  const far = dropFar(single.levels);
  const findings = [away, single, far].flatMap((step) => named(step.odd));
  if (far.levels.length * outline.xsUm.length > RIM_STEPS) return { levels: far.levels, findings };
  const levels = ontoRim(far.levels, outline, origin, Math.max(RIM_MM, job.survey.sigma.tape));
  return { levels, findings: [...findings, ...outsideFinding(levels, outline, origin)] };
}

type OddLevel = Extract<SurveyFinding, { code: "levelAway" | "levelTwice" | "levelFar" | "levelDecimal" }>;
interface Step {
  levels: Level[];
  odd: OddLevel[];
}
const WARN = { rule: "survey", level: "warn", releasedBy: "reading" } as const;

/** The worst are named one by one, and how many more there are. */
function named(odd: readonly OddLevel[]): SurveyFinding[] {
  const worst = [...odd].sort((a, b) => Math.abs(Number(b.found)) - Math.abs(Number(a.found))).slice(0, NAMED);
  const last = worst[worst.length - 1];
  if (last && odd.length > worst.length) {
    worst[worst.length - 1] = { ...last, data: { ...last.data, others: odd.length - worst.length } } as OddLevel;
  }
  return worst;
}

/** Farther from the outline's box than the box is long: a slip in x or y, not a reading beside the terrace. */
function dropAway(levels: readonly Level[], outline: FlatRing, origin: Origin): Step {
  const box = boxOf(outline);
  const reach = Math.max(box.x1 - box.x0, box.y1 - box.y0, 5_000_000);
  const odd: OddLevel[] = [];
  const near = levels.filter(({ xMm, yMm }) => {
    const [x, y] = [toUm(xMm - origin.xMm), toUm(yMm - origin.yMm)];
    const away = Math.max(box.x0 - x, x - box.x1, box.y0 - y, y - box.y1);
    if (away <= reach) return true;
    const data = { x: xMm, y: yMm, distance: Math.round(away / 1000), others: 0 };
    odd.push({
      ...WARN,
      code: "levelAway",
      at: [xMm, yMm],
      found: data.distance,
      limit: Math.round(reach / 1000),
      data,
    });
    return false;
  });
  return { levels: near, odd };
}

/** Readings at one place become their mean; said where they differ by more than readings do. O(readings). */
function mergeTwice(levels: readonly Level[], sigmaMm: number, origin: Origin): Step {
  // places lie within a few kilometres of the origin by now: two of them fit one whole number
  const place = (mm: number, from: number): number => Math.round(toUm(mm - from) / SAME_PLACE_UM);
  const first = new Map<number, number>();
  const again = new Map<number, Level[]>();
  levels.forEach((level, i) => {
    const key = place(level.xMm, origin.xMm) * PLACES + place(level.yMm, origin.yMm);
    const before = first.get(key);
    if (before === undefined) first.set(key, i);
    else {
      const group = again.get(before);
      if (group) group.push(level);
      else again.set(before, [levels[before]!, level]);
    }
  });
  if (again.size === 0) return { levels: [...levels], odd: [] };
  // three standard deviations of a difference of two readings
  const limit = 3 * sigmaMm * Math.SQRT2;
  const odd: OddLevel[] = [];
  const out = [...first.values()].map((i): Level => {
    const group = again.get(i);
    if (!group) return levels[i]!;
    const heights = group.map((one) => one.zMm).sort((a, b) => a - b);
    const [least, most] = [heights[0]!, heights[heights.length - 1]!];
    const used = round(heights.reduce((sum, z) => sum + z, 0) / heights.length);
    const { xMm: x, yMm: y } = levels[i]!;
    const data = { x, y, readings: group.length, least, most, used, others: 0 };
    const level = most - least > limit ? "warn" : "note";
    const found = round(most - least);
    if (least < most) odd.push({ ...WARN, level, code: "levelTwice", at: [x, y], found, limit: round(limit), data });
    return { ...levels[i]!, zMm: used };
  });
  return { levels: out, odd };
}

function dropFar(levels: readonly Level[]): Step {
  const plane = robustPlane(levels);
  if (!plane) return { levels: [...levels], odd: [] };
  const limit = Math.max(FAR_MM, FAR_SCALES * plane.scaleMm);
  const off = levels.map((level) => level.zMm - plane.at(level.xMm, level.yMm));
  const far = off.filter((one) => Math.abs(one) > limit).length;
  if (far === 0 || far > Math.max(1, FAR_SHARE * levels.length)) return { levels: [...levels], odd: [] };
  const odd: OddLevel[] = [];
  const kept = levels.filter((level, i) => {
    if (Math.abs(off[i]!) <= limit) return true;
    odd.push(farFinding(level, off[i]!, limit, plane.at(level.xMm, level.yMm), plane.scaleMm));
    return false;
  });
  return { levels: kept, odd };
}

function farFinding(
  { xMm: x, yMm: y, zMm: z }: Level,
  offMm: number,
  limit: number,
  expected: number,
  scaleMm: number,
): OddLevel {
  const common = { ...WARN, at: [x, y] as const, found: round(offMm), limit: round(limit) };
  // ten, a hundred or a thousand times too much or too little; metres written for millimetres are among them
  const likely = [10, 100, 1000, 0.1, 0.01, 0.001]
    .map((factor) => z * factor)
    .filter((one) => Math.abs(one - expected) < Math.max(3, 3 * scaleMm))
    .sort((a, b) => Math.abs(a - expected) - Math.abs(b - expected))[0];
  if (likely !== undefined && z !== 0) {
    return { ...common, code: "levelDecimal", data: { x, y, z, likely: round(likely), off: round(offMm), others: 0 } };
  }
  return { ...common, code: "levelFar", data: { x, y, z, off: round(offMm), limit: round(limit), others: 0 } };
}

/** Readings beside the terrace stay: they tell how the base runs on. O(readings x corners). */
function outsideFinding(levels: readonly Level[], outline: FlatRing, origin: Origin): SurveyFinding[] {
  const box = boxOf(outline);
  let count = 0;
  let farthest = 0;
  let at: readonly [number, number] | null = null;
  for (const { xMm, yMm } of levels) {
    const [x, y] = [toUm(xMm - origin.xMm), toUm(yMm - origin.yMm)];
    if (whereIs(outline, x, y) !== -1 || onRim(outline, x, y)) continue;
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
