import { PUDDLE_AREA_MM2, PUDDLE_DEPTH_MM } from "../../base/practice.ts";
import type { BaseMesh } from "../../geometry/base-mesh.ts";
import { nextEdge } from "../../geometry/delaunay.ts";
import { drainsOver } from "../../geometry/outlets.ts";
import { heightOn } from "../../geometry/plane.ts";
import { findPuddles } from "../../geometry/puddles.ts";
import { type BarRest, searchStraightedge } from "../../geometry/straightedge.ts";
import type { Job } from "../../job/job.ts";
import { type PlanePart, partAt } from "../../solve/facets.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { PreparationWhy } from "./findings.ts";
import { doorRoom } from "./rules.ts";
import { emptyOption, materialsFor, optionOf, type Prepared, stakesOf } from "./target.ts";

/** Rounds of filling under straightedges before the base is called too uneven to patch. */
const ROUNDS = 12;
/** Filled a little further than the limit, so that the next round finds nothing, mm. */
const SPARE_MM = 0.05;

/**
 * Only as far as the rules need: each part is brought within its deviation about its own plane (ground above, filled
 * below, the plane raised where grinding would go too deep), hollows under a straightedge are filled to its limit and
 * puddles to theirs. Falls stay as they are: a base whose falls fail cannot be patched, and says so. Heights are changed
 * at points of the mesh; filling under bars is repeated until none is over, not proved least.
 */
export function patchOption(
  job: Job,
  survey: SurveyRecord,
  mesh: BaseMesh,
  parts: readonly PlanePart[],
  fallsFail: boolean,
): Prepared {
  if (fallsFail) return emptyOption("patch", "fallNeedsPlane", false);
  const material = materialsFor(job, false)[0] ?? null;
  const target: BaseMesh = { ...mesh, z: withinDeviation(job, mesh, parts) };
  const even = fillUnderBars(job, target);
  const drained = fillPuddles(survey, target) && (even ? fillUnderBars(job, target) : true);
  const change = Float64Array.from(mesh.z, (z, i) => (Math.abs(target.z[i]! - z) < 1e-6 ? 0 : target.z[i]! - z));
  const why = failing(job, survey, mesh, change, even, drained, material?.max ?? null);
  return optionOf(job, "patch", why ?? "patched", why === null, {
    changes: { x: mesh.x, y: mesh.y, corners: mesh.corners, change },
    stakes: stakesOf(mesh, change),
    planes: parts.map((p) => p.plane),
    material,
  });
}

function failing(
  job: Job,
  survey: SurveyRecord,
  mesh: BaseMesh,
  change: Float64Array,
  even: boolean,
  drained: boolean,
  thickest: number | null,
): PreparationWhy | null {
  let high = 0;
  let low = 0;
  for (const t of change) {
    high = Math.max(high, t);
    low = Math.min(low, t);
  }
  if (high > 0 && thickest === null) return "noMaterial";
  if (-low > job.base.preparation.grindMax + 1e-6) return "grindTooDeep";
  if (thickest !== null && high > thickest + 1e-6) return "fillTooThick";
  if (!even) return "tooUneven";
  if (!drained) return "puddlesStay";
  return doorRoom(job, survey, mesh).some((d) => change[d.point]! > d.room + 0.01) ? "doorTooLow" : null;
}

/** Heights brought within the deviation of each part's zone plane, raised where grinding would go deeper than allowed. */
function withinDeviation(job: Job, mesh: BaseMesh, parts: readonly PlanePart[]): Float64Array {
  const { deviation } = job.base.limits;
  const over = parts.map(() => 0);
  const offset = (i: number) => {
    const k = partAt(parts, mesh.x[i]!, mesh.y[i]!);
    return { k, r: mesh.z[i]! - heightOn(parts[k]!.zone, mesh.x[i]!, mesh.y[i]!) };
  };
  for (let i = 0; i < mesh.x.length; i++) {
    const { k, r } = offset(i);
    over[k] = Math.max(over[k]!, r - deviation - job.base.preparation.grindMax);
  }
  return Float64Array.from(mesh.z, (z, i) => {
    const { k, r } = offset(i);
    const top = over[k]! + deviation;
    const bottom = over[k]! - deviation;
    return r > top ? z - (r - top) : r < bottom ? z + (bottom - r) : z;
  });
}

/** Fills under every bar whose gap is over the limit, until none is; false where that did not end. */
function fillUnderBars(job: Job, target: BaseMesh): boolean {
  const { straightedge, unevenness } = job.base.limits;
  for (let round = 0; round < ROUNDS; round++) {
    const { over } = searchStraightedge(target, straightedge, unevenness + 1e-6);
    if (over.length === 0) return true;
    const lift = new Map<number, number>();
    for (const bar of over) liftUnder(target, bar, bar.gapMm - unevenness + SPARE_MM, lift);
    for (const [i, mm] of lift) target.z[i] = target.z[i]! + mm;
  }
  return false;
}

/** The ends of the edge on which a bar's gap is largest are lifted, or the point alone where it lies there. */
function liftUnder(target: BaseMesh, bar: BarRest, mm: number, lift: Map<number, number>): void {
  const raise = (i: number) => lift.set(i, Math.max(mm, lift.get(i) ?? 0));
  let best = Number.POSITIVE_INFINITY;
  let edge = -1;
  for (let e = 0; e < target.corners.length; e++) {
    if (target.twins[e]! > e) continue;
    const d = offEdge(target, e, bar.at[0], bar.at[1]);
    if (d < best - 1e-9) {
      best = d;
      edge = e;
    }
  }
  if (edge < 0) return;
  const ends = [target.corners[edge]!, target.corners[nextEdge(edge)]!];
  const own = ends.find((i) => Math.abs(target.x[i]! - bar.at[0]) < 1 && Math.abs(target.y[i]! - bar.at[1]) < 1);
  for (const i of own === undefined ? ends : [own]) raise(i);
}

function offEdge(mesh: BaseMesh, e: number, x: number, y: number): number {
  const p = mesh.corners[e]!;
  const q = mesh.corners[nextEdge(e)]!;
  const dx = mesh.x[q]! - mesh.x[p]!;
  const dy = mesh.y[q]! - mesh.y[p]!;
  const f = Math.max(0, Math.min(1, ((x - mesh.x[p]!) * dx + (y - mesh.y[p]!) * dy) / (dx * dx + dy * dy)));
  const ex = mesh.x[p]! + f * dx - x;
  const ey = mesh.y[p]! + f * dy - y;
  return ex * ex + ey * ey;
}

/** Puddles filled to what may stand; those that are too wide or reach a door to the brim. False where some stay. */
function fillPuddles(survey: SurveyRecord, target: BaseMesh): boolean {
  const water = () => findPuddles(target, (rim) => drainsOver(survey, rim)).puddles;
  const atDoor = (touches: number[]) => touches.some((s) => s >= 0 && survey.sides[s]?.kind === "door");
  for (const p of water()) {
    const brim = p.areaMm2 > PUDDLE_AREA_MM2 || atDoor(p.touches);
    if (!brim && p.depthMm <= PUDDLE_DEPTH_MM) continue;
    const level = brim ? p.levelMm : p.levelMm - PUDDLE_DEPTH_MM;
    for (const i of p.points) if (target.z[i]! < level) target.z[i] = level;
  }
  return water().every(
    (p) => p.depthMm <= PUDDLE_DEPTH_MM + 1e-6 && p.areaMm2 <= PUDDLE_AREA_MM2 && !(p.depthMm > 1 && atDoor(p.touches)),
  );
}
