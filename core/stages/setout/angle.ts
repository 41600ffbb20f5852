import { toUm } from "../../base/units.ts";
import { degreesOf, directionOf } from "../../geometry/direction.ts";
import { frameAt } from "../../geometry/frame.ts";
import { boxOf } from "../../geometry/ring.ts";
import type { Job } from "../../job/job.ts";
import type { SurfaceStage } from "../surface/record.ts";
import type { SurveyRecord } from "../survey/record.ts";
import { fieldOf } from "./field.ts";
import { levelsOf } from "./levels.ts";
import { chooseRows } from "./rows.ts";
import { turnSite } from "./turn.ts";

export interface AngleChoice {
  deg: number;
  reason: { code: string; data: Record<string, number | string> };
}
/** Directions of walls tried, longest first, each along and across. */
const WALLS = 4;
/** Below this fall (%) the water does not decide the direction. */
const FALL_THAT_COUNTS = 0.5;
/** Channels further from the fall than 45 degrees hold water: weighs like this share of the outline ripped. */
const WATER_WEIGHT = 4;

/**
 * The rows' direction: the given one, or the best along or across a long side. Judged by a cheap estimate in metres of
 * trouble: bad and ripped edges by the row sweep, slanting ends, and channels that would hold water. Of the two senses of
 * the best direction the one is taken whose upper side is freer, so that the last rows can be moved in.
 */
export function chooseAngle(job: Job, survey: SurveyRecord, surface: SurfaceStage): AngleChoice {
  if (job.bond.angle !== null) {
    return { deg: job.bond.angle, reason: { code: "angleGiven", data: { angle: job.bond.angle } } };
  }
  const sides = straightSides(survey);
  const fall = surface.surface === null ? null : surface.surface.plane;
  let perimeter = 0;
  for (const side of sides) perimeter += side.length;
  let best: { deg: number; cost: number; water: boolean; side: number } | null = null;
  for (const { deg, side } of candidates(sides)) {
    const [c, s] = directionOf(deg);
    const water = fall !== null && fall.fall >= FALL_THAT_COUNTS && holdsWater(job, deg, fall.towards);
    let cost = estimate(job, survey, deg);
    for (const other of sides) {
      const along = Math.abs(other.dx * c + other.dy * s);
      const across = Math.abs(other.dy * c - other.dx * s);
      cost += Math.min(along, across) < 0.01 ? 0 : other.length / 2;
    }
    if (water) cost += perimeter * WATER_WEIGHT;
    const rounded = Math.round(cost);
    if (best === null || rounded < best.cost) best = { deg, cost: rounded, water, side };
  }
  if (best === null) return { deg: 0, reason: { code: "angleDefault", data: { angle: 0 } } };
  const deg = freerSense(best.deg, sides);
  const code = fall !== null && fall.fall >= FALL_THAT_COUNTS && !best.water ? "angleAlongFall" : "angleAlongSide";
  return { deg, reason: { code, data: { angle: deg, side: best.side } } };
}

interface Straight {
  dx: number;
  dy: number;
  length: number;
  kind: string;
  source: number;
}

function straightSides(survey: SurveyRecord): Straight[] {
  const out: Straight[] = [];
  survey.outline.forEach(([x0, y0, bulge], i) => {
    if (bulge !== 0) return;
    const [x1, y1] = survey.outline[(i + 1) % survey.outline.length]!;
    const dx = x1 - x0;
    const dy = y1 - y0;
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length > 0) {
      const { kind, source } = survey.sides[i]!;
      out.push({ dx: dx / length, dy: dy / length, length, kind, source });
    }
  });
  return out;
}

/** Along and across the longest sides, half turns left out; angles are given to a millionth of a degree. */
function candidates(sides: readonly Straight[]): { deg: number; side: number }[] {
  const longest = [...sides].sort((a, b) => Math.round(b.length - a.length)).slice(0, WALLS * 2);
  const out: { deg: number; side: number }[] = [];
  for (const side of longest) {
    for (const turn of [0, 90]) {
      const deg = tidyDegrees(degreesOf(side.dx, side.dy) + turn);
      const known = out.some((o) => Math.abs(((((o.deg - deg) % 180) + 270) % 180) - 90) < 0.01);
      if (!known && out.length < WALLS * 2) out.push({ deg, side: side.source });
    }
  }
  return out;
}

function tidyDegrees(deg: number): number {
  const turned = ((deg % 360) + 360) % 360;
  const rounded = Math.round(turned * 1e6) / 1e6;
  return rounded >= 360 ? 0 : rounded;
}

/** Metres of trouble along the rows for one direction. */
function estimate(job: Job, survey: SurveyRecord, deg: number): number {
  const [x0, y0] = survey.outline[0]!;
  const turned = turnSite(survey, frameAt(x0, y0, deg));
  const field = fieldOf(turned);
  if (field.parts.length === 0) return Number.MAX_SAFE_INTEGER;
  const boxes = field.parts.map((p) => boxOf(p.outer));
  const low = Math.min(...boxes.map((b) => b.v0));
  const high = Math.max(...boxes.map((b) => b.v1));
  const { cost } = chooseRows(levelsOf(field.parts, turned), low, high, job);
  // Each row end is a cut: a tenth of a board's width of trouble apiece.
  return cost.badMm * 4 + cost.ripMm + (cost.rows * toUm(job.board.width)) / 5000;
}

function holdsWater(job: Job, deg: number, towards: number): boolean {
  if (job.board.channels === "both" || job.board.channels === "none") return false;
  const [c, s] = directionOf(job.board.channels === "along" ? deg : deg + 90);
  const [fx, fy] = directionOf(towards);
  return Math.abs(c * fx + s * fy) < 0.7;
}

/** Turns the rows half round where the free sides would otherwise lie at their beginning. */
function freerSense(deg: number, sides: readonly Straight[]): number {
  const [c, s] = directionOf(deg);
  let balance = 0;
  for (const side of sides) {
    // Outward normal of a counter-clockwise side is to its right: (dy, -dx).
    const out = side.dy * -s - side.dx * c;
    const free = side.kind === "open" || side.kind === "outlet" || side.kind === "kerb" || side.kind === "pool" ? 1 : 0;
    balance += out * side.length * free;
  }
  return Math.round(balance) < 0 ? tidyDegrees(deg + 180) : deg;
}
