import type { BaseMesh } from "../../geometry/base-mesh.ts";
import { type FallingPlane, heightOn, planeOf } from "../../geometry/plane.ts";
import type { BaseMaterial, Job } from "../../job/job.ts";
import { cheapestFit } from "../../solve/cheapest-fit.ts";
import { type HalfPlane, type PlanePart, partAt } from "../../solve/facets.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { PreparationWhy } from "./findings.ts";
import { keptFromHouse, sumOf } from "./plane-option.ts";
import {
  brokenRule,
  costTerms,
  fallRule,
  heightRules,
  houseRules,
  type Rule,
  type Shape,
  steepestRules,
} from "./rules.ts";
import { changesTo, cutAlong, emptyOption, materialsFor, optionOf, type Prepared, stakesOf } from "./target.ts";

/**
 * The two cheapest planes that meet along the ridge or valley found in the base: four unknowns (height and slope along
 * the line, slope to either side), the same rules as for one plane, each side falling the way it falls today.
 * Expects a base of exactly two parts.
 */
export function facetsOption(job: Job, survey: SurveyRecord, mesh: BaseMesh, parts: readonly PlanePart[]): Prepared {
  const materials = materialsFor(job, false);
  const shape = new RoofShape(mesh, parts[0]!.within.at(-1)!);
  const done = keptFromHouse(materials, (material, kinds) =>
    cheapestRoof(job, survey, mesh, parts, shape, material, kinds),
  );
  return done ?? emptyOption("facets", "noMaterial", false);
}

/** Height on the line, slope along it, slopes away from it on the near and the far side; runs in units of one reach. */
class RoofShape implements Shape {
  readonly unknowns = 4;
  readonly line: HalfPlane;
  private readonly reach: number;
  private readonly along: number;

  constructor(mesh: BaseMesh, line: HalfPlane) {
    this.line = line;
    let reach = 1;
    let sum = 0;
    for (let i = 0; i < mesh.x.length; i++) {
      reach = Math.max(reach, Math.abs(line.nx * mesh.x[i]! + line.ny * mesh.y[i]! - line.d));
      sum += line.nx * mesh.y[i]! - line.ny * mesh.x[i]!;
    }
    this.along = sum / mesh.x.length;
    this.reach = reach;
  }

  heightRow(x: number, y: number): number[] {
    const { nx, ny, d } = this.line;
    const across = (nx * x + ny * y - d) / this.reach;
    const along = (nx * y - ny * x - this.along) / this.reach;
    return [1, along, Math.min(across, 0), Math.max(across, 0)];
  }

  planes(p: ArrayLike<number>): [FallingPlane, FallingPlane] {
    const side = (slope: number) => {
      const { nx, ny, d } = this.line;
      const u = p[1]! / this.reach;
      const v = slope / this.reach;
      return planeOf(v * nx - u * ny, v * ny + u * nx, p[0]! - u * this.along - v * d);
    };
    return [side(p[2]!), side(p[3]!)];
  }
}

function cheapestRoof(
  job: Job,
  survey: SurveyRecord,
  mesh: BaseMesh,
  parts: readonly PlanePart[],
  shape: RoofShape,
  material: BaseMaterial,
  kinds: readonly string[],
): Prepared | null {
  const { fallMin, fallMax } = job.base.limits;
  const costs = costTerms(job, mesh, shape, material);
  const scale = sumOf(costs);
  const rules: Rule[] = [
    ...heightRules(job, survey, mesh, shape, material, scale),
    ...houseRules(survey, shape, kinds, scale),
  ];
  for (const part of parts) {
    // A place well inside the part, so that a run of slope does not cross the line.
    const far = placeBeyond(shape.line, part, parts[0] === part ? -1 : 1);
    const { a, b, fall } = part.plane;
    rules.push(...steepestRules(shape, far, fallMax, scale));
    if (fall > 0) rules.push(fallRule(shape, far, (-100 * a) / fall, (-100 * b) / fall, fallMin * (1 + 1e-9), scale));
  }
  const fit = cheapestFit([...costs, ...rules.map((r) => r.term)], 4);
  if (!fit) return null;
  const broken = brokenRule(rules, fit.p);
  const planes = shape.planes(fit.p);
  const height = (x: number, y: number) => heightOn(planes[partAt(parts, x, y)]!, x, y);
  const { nx, ny, d } = shape.line;
  const why: PreparationWhy = broken ?? (kinds.includes("wall") ? "ridgePlanes" : "houseward");
  return optionOf(job, "facets", why, broken === null, {
    changes: cutAlong(mesh, nx, ny, d, height),
    stakes: stakesOf(mesh, changesTo(mesh, height)),
    planes,
    material,
  });
}

/** Slopes are differences of heights over ten metres: far enough from the line on the part's own side. */
const FAR_MM = 20_000;

function placeBeyond(line: HalfPlane, part: PlanePart, way: 1 | -1): [number, number] {
  const [x, y] = part.middle;
  return [x + way * FAR_MM * line.nx, y + way * FAR_MM * line.ny];
}
