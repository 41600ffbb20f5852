import type { BaseMesh } from "../../geometry/base-mesh.ts";
import { directionOf } from "../../geometry/direction.ts";
import { planeOf } from "../../geometry/plane.ts";
import type { BaseMaterial, Job } from "../../job/job.ts";
import { cheapestFit, type Fit, type Term } from "../../solve/cheapest-fit.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { PreparationWhy } from "./findings.ts";
import { moneyOf } from "./quantities.ts";
import {
  brokenRule,
  costTerms,
  doorRoom,
  fallRule,
  heightRules,
  houseRules,
  type Rule,
  type Shape,
  steepestRules,
} from "./rules.ts";
import { changesTo, emptyOption, materialsFor, onPlane, optionOf, type Prepared, stakesOf } from "./target.ts";

/** Directions of the fall tried, degrees apart; the best one is then turned by halving steps. */
const DIRECTION_STEP_DEG = 15;
const REFINEMENTS = 5;

/**
 * The cheapest single plane: fill below, grind above. Held: greatest grinding, the material's greatest thickness, heights
 * at doors, greatest fall, least fall, and no fall towards walls and doors (towards doors alone where walls leave no way,
 * and then it says so). The least fall has a direction, so directions are swept; in each the plane is exactly cheapest,
 * with its certificate. Between two directions looked at the cost can be lower by a little. The certificate is for
 * grinding and filling as they are; the cutting in of thin edges is weighed afterwards (`cheapestLift`).
 */
export function planeOption(job: Job, survey: SurveyRecord, mesh: BaseMesh): Prepared {
  const materials = materialsFor(job, job.base.limits.fallMin === 0);
  return (
    keptFromHouse(materials, (material, kinds) => {
      const best = cheapestPlane(job, survey, mesh, material, kinds);
      if (!best) return null;
      const why = best.broken ?? (kinds.includes("wall") ? "onePlane" : "houseward");
      return made(job, survey, mesh, best, material, why);
    }) ?? emptyOption("plane", "noMaterial", false)
  );
}

/**
 * The first option that can be had: no fall towards walls and doors, else towards walls, else anywhere; cheapest
 * material first. What fails even when it may fall anywhere fails for another reason, and is not tried in between.
 */
export function keptFromHouse(
  materials: readonly BaseMaterial[],
  make: (material: BaseMaterial, kinds: readonly string[]) => Prepared | null,
): Prepared | null {
  let failed: Prepared | null = null;
  const attempt = (kinds: readonly string[]): Prepared | null => {
    for (const material of materials) {
      const made = make(material, kinds);
      if (made?.feasible) return made;
      failed ??= made;
    }
    return null;
  };
  const best = attempt(["wall", "door"]);
  if (best) return best;
  const anywhere = attempt([]);
  return anywhere ? (attempt(["door"]) ?? anywhere) : failed;
}

interface Best {
  fit: Fit;
  broken: PreparationWhy | null;
  shape: PlaneShape;
}

function made(
  job: Job,
  survey: SurveyRecord,
  mesh: BaseMesh,
  best: Best,
  material: BaseMaterial,
  why: PreparationWhy,
): Prepared {
  const feasible = best.broken === null;
  const solved = best.shape.plane(best.fit.p);
  const low = changesTo(mesh, onPlane(solved));
  const lift = feasible ? cheapestLift(job, survey, mesh, low, material) : 0;
  const plane = { ...solved, c: solved.c + lift };
  const change = lift > 0 ? changesTo(mesh, onPlane(plane)) : low;
  const changes = { x: mesh.x, y: mesh.y, corners: mesh.corners, change };
  return optionOf(job, "plane", why, feasible, { changes, stakes: stakesOf(mesh, change), planes: [plane], material });
}

/** The plane is tried this many steps higher, up to twice the material's least thickness. */
const LIFTS = 8;

/**
 * Cutting in thin edges is not in the plane's own cost. Where it would be dear (a thin layer nearly everywhere) the plane
 * is raised a little instead, as far as thickness and doors allow: the cheapest of a few heights, all counted in full.
 */
function cheapestLift(
  job: Job,
  survey: SurveyRecord,
  mesh: BaseMesh,
  low: Float64Array,
  material: BaseMaterial,
): number {
  let room = Number.POSITIVE_INFINITY;
  for (const e of mesh.corners) room = Math.min(room, material.max - low[e]!);
  for (const d of doorRoom(job, survey, mesh)) room = Math.min(room, d.room - low[d.point]!);
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k <= LIFTS; k++) {
    const lift = (2 * material.min * k) / LIFTS;
    if (k > 0 && lift > room) break;
    const change = low.map((t) => t + lift);
    const { costMinor } = moneyOf(job, { x: mesh.x, y: mesh.y, corners: mesh.corners, change }, material);
    if (costMinor < least) [best, least] = [lift, costMinor];
  }
  return best;
}

/** Unknowns: rise over one reach in x and in y, height at the middle: figures of one size. */
export class PlaneShape implements Shape {
  readonly unknowns = 3;
  private readonly ox: number;
  private readonly oy: number;
  private readonly reach: number;

  constructor(mesh: { x: ArrayLike<number>; y: ArrayLike<number> }) {
    let [x0, x1, y0, y1] = [mesh.x[0]!, mesh.x[0]!, mesh.y[0]!, mesh.y[0]!];
    for (let i = 1; i < mesh.x.length; i++) {
      x0 = Math.min(x0, mesh.x[i]!);
      x1 = Math.max(x1, mesh.x[i]!);
      y0 = Math.min(y0, mesh.y[i]!);
      y1 = Math.max(y1, mesh.y[i]!);
    }
    this.ox = (x0 + x1) / 2;
    this.oy = (y0 + y1) / 2;
    this.reach = Math.max(1, (x1 - x0) / 2, (y1 - y0) / 2);
  }

  heightRow(x: number, y: number): number[] {
    return [(x - this.ox) / this.reach, (y - this.oy) / this.reach, 1];
  }

  plane(p: ArrayLike<number>) {
    const a = p[0]! / this.reach;
    const b = p[1]! / this.reach;
    return planeOf(a, b, p[2]! - a * this.ox - b * this.oy);
  }

  get middle(): [number, number] {
    return [this.ox, this.oy];
  }
}

function cheapestPlane(
  job: Job,
  survey: SurveyRecord,
  mesh: BaseMesh,
  material: BaseMaterial,
  kinds: readonly string[],
): Best | null {
  const { fallMin, fallMax } = job.base.limits;
  const shape = new PlaneShape(mesh);
  const costs = costTerms(job, mesh, shape, material);
  const scale = sumOf(costs);
  const rules: Rule[] = [
    ...heightRules(job, survey, mesh, shape, material, scale),
    ...steepestRules(shape, shape.middle, fallMax, scale),
    ...houseRules(survey, shape, kinds, scale),
  ];
  let warm: number[] | null = null;
  const solve = (more: Rule[]): Best | null => {
    const all = [...rules, ...more];
    const fit = cheapestFit([...costs, ...all.map((r) => r.term)], 3, warm);
    warm = fit ? fit.basis.map((b) => b.term) : null;
    return fit ? { fit, broken: brokenRule(all, fit.p), shape } : null;
  };
  const free = solve([]);
  if (!free || free.broken || shape.plane(free.fit.p).fall >= fallMin - 1e-9) return free;
  const along = (deg: number): Best | null => {
    const [dx, dy] = directionOf(deg);
    // A hair more than the limit, so that the plane's own fall is never a last digit below it.
    return solve([fallRule(shape, shape.middle, dx, dy, fallMin * (1 + 1e-9), scale)]);
  };
  let best: Best | null = null;
  let at = 0;
  const better = (b: Best | null) => b && (!best || b.fit.cost < best.fit.cost - 1e-9);
  for (let deg = 0; deg < 360; deg += DIRECTION_STEP_DEG) {
    const b = along(deg);
    if (better(b)) [best, at] = [b, deg];
  }
  let step = DIRECTION_STEP_DEG / 2;
  for (let k = 0; k < REFINEMENTS; k++, step /= 2) {
    const middle = at;
    for (const deg of [middle - step, middle + step]) {
      const b = along(deg);
      if (better(b)) [best, at] = [b, deg];
    }
  }
  return best;
}

export function sumOf(terms: readonly Term[]): number {
  let sum = 0;
  for (const t of terms) sum += t.up + t.down;
  return sum;
}
