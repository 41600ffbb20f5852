import { ASIDE_PERCENT } from "../../base/practice.ts";
import type { BaseMesh } from "../../geometry/base-mesh.ts";
import { nextEdge } from "../../geometry/delaunay.ts";
import { directionOf } from "../../geometry/direction.ts";
import { triangleArea } from "../../geometry/volume.ts";
import type { BaseMaterial, Job } from "../../job/job.ts";
import { residualOf, type Term } from "../../solve/cheapest-fit.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { PreparationWhy } from "./findings.ts";

/** A hard rule: a term dear beyond all else, and why an option fails that cannot keep it. */
export interface Rule {
  term: Term;
  why: PreparationWhy;
}
/** Rows of a target's unknowns: its height at a place, and its slope along a direction (rise a mm). */
export interface Shape {
  unknowns: number;
  heightRow(x: number, y: number): number[];
}

/** Breaking a hard rule costs this many times all other terms at once. */
const HARD = 100;
/** The greatest fall is held by this many half-planes round the circle: at worst 0.9 % of the limit is given away. */
const FALL_SIDES = 24;
const FALL_SHARE = 0.9914448613738104;

/** Cost of grinding and filling at each point of the mesh for the base it stands for (a third of each triangle), minor. */
export function costTerms(job: Job, mesh: BaseMesh, shape: Shape, material: BaseMaterial): Term[] {
  const share = new Float64Array(mesh.x.length);
  for (let t = 0; t < mesh.corners.length; t += 3) {
    const [a, b, c] = [mesh.corners[t]!, mesh.corners[t + 1]!, mesh.corners[t + 2]!];
    const third = triangleArea(mesh, a, b, c) / 3e6;
    for (const p of [a, b, c]) share[p]! += third;
  }
  const terms: Term[] = [];
  for (let i = 0; i < mesh.x.length; i++) {
    if (!(share[i]! > 0)) continue;
    const row = shape.heightRow(mesh.x[i]!, mesh.y[i]!);
    const down = share[i]! * job.base.preparation.grindCost;
    terms.push({ row, z: mesh.z[i]!, up: share[i]! * material.cost, down });
  }
  return terms;
}

/** Grinding no deeper and filling no higher than allowed, and heights at doors kept under sill and leaf. */
export function heightRules(
  job: Job,
  survey: SurveyRecord,
  mesh: BaseMesh,
  shape: Shape,
  material: BaseMaterial,
  scale: number,
): Rule[] {
  const dear = HARD * scale;
  const rules: Rule[] = [];
  const used = new Uint8Array(mesh.x.length);
  for (let e = 0; e < mesh.corners.length; e++) used[mesh.corners[e]!] = 1;
  for (let i = 0; i < mesh.x.length; i++) {
    if (!used[i]) continue;
    const row = shape.heightRow(mesh.x[i]!, mesh.y[i]!);
    const z = mesh.z[i]!;
    rules.push({ why: "grindTooDeep", term: { row, z: z - job.base.preparation.grindMax, up: 0, down: dear } });
    rules.push({ why: "fillTooThick", term: { row, z: z + material.max, up: dear, down: 0 } });
  }
  for (const { point, room } of doorRoom(job, survey, mesh)) {
    const row = shape.heightRow(mesh.x[point]!, mesh.y[point]!);
    rules.push({ why: "doorTooLow", term: { row, z: mesh.z[point]! + room, up: dear, down: 0 } });
  }
  return rules;
}

/** How far the base may rise at each point beside a door, so that boards stay under sill and open leaf; never below zero. */
export function doorRoom(job: Job, survey: SurveyRecord, mesh: BaseMesh): { point: number; room: number }[] {
  const out = new Map<number, number>();
  for (let e = 0; e < mesh.corners.length; e++) {
    if (mesh.twins[e] !== -1 || mesh.rim[e]! < 0) continue;
    const side = survey.sides[mesh.rim[e]!];
    if (side?.kind !== "door") continue;
    const leaf = side.opens === "out" ? side.leafClear : null;
    if (side.sill === null && leaf === null) continue;
    const height = Math.min(side.sill ?? Number.POSITIVE_INFINITY, leaf ?? Number.POSITIVE_INFINITY);
    const room = Math.max(0, height - job.board.rise);
    for (const p of [mesh.corners[e]!, mesh.corners[nextEdge(e)]!]) out.set(p, Math.min(room, out.get(p) ?? room));
  }
  return [...out].map(([point, room]) => ({ point, room })).sort((p, q) => p.point - q.point);
}

/** The slope over a run of one mm in a direction, as a row: the difference of two heights. */
function slopeRow(shape: Shape, at: readonly [number, number], dx: number, dy: number, runMm: number): number[] {
  const here = shape.heightRow(at[0], at[1]);
  return shape.heightRow(at[0] + dx * runMm, at[1] + dy * runMm).map((v, k) => v - here[k]!);
}

/** The run over which slopes are stated, mm: a hundred metres would give whole percents; ten keep the figures even. */
const RUN_MM = 10_000;

/** The greatest fall at a place, in all directions. */
export function steepestRules(shape: Shape, at: readonly [number, number], fallMax: number, scale: number): Rule[] {
  const rules: Rule[] = [];
  for (let k = 0; k < FALL_SIDES; k++) {
    const [dx, dy] = directionOf((360 * k) / FALL_SIDES);
    const row = slopeRow(shape, at, dx, dy, RUN_MM);
    const z = (fallMax / 100) * FALL_SHARE * RUN_MM;
    rules.push({ why: "fallNotHad", term: { row, z, up: HARD * scale, down: 0 } });
  }
  return rules;
}

/** At least `fallMin` down a direction, at a place. */
export function fallRule(
  shape: Shape,
  at: readonly [number, number],
  dx: number,
  dy: number,
  fallMin: number,
  scale: number,
): Rule {
  const row = slopeRow(shape, at, dx, dy, RUN_MM);
  return { why: "fallNotHad", term: { row, z: (-fallMin / 100) * RUN_MM, up: HARD * scale, down: 0 } };
}

/** No fall towards walls and doors (or doors alone). */
export function houseRules(survey: SurveyRecord, shape: Shape, kinds: readonly string[], scale: number): Rule[] {
  const rules: Rule[] = [];
  const n = survey.outline.length;
  for (let i = 0; i < n; i++) {
    if (!kinds.includes(survey.sides[i]?.kind ?? "")) continue;
    const [x0, y0] = survey.outline[i]!;
    const [x1, y1] = survey.outline[(i + 1) % n]!;
    const length = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
    if (length === 0) continue;
    const [nx, ny] = [(y1 - y0) / length, (x0 - x1) / length];
    const inside: [number, number] = [(x0 + x1) / 2 - nx, (y0 + y1) / 2 - ny];
    const row = slopeRow(shape, inside, -nx, -ny, RUN_MM);
    rules.push({ why: "houseward", term: { row, z: (ASIDE_PERCENT / 100) * RUN_MM, up: HARD * scale, down: 0 } });
  }
  return rules;
}

/** The first rule that p breaks by more than a hundredth of a millimetre, or null. */
export function brokenRule(rules: readonly Rule[], p: ArrayLike<number>): PreparationWhy | null {
  for (const { term, why } of rules) {
    const r = residualOf(term, p);
    if ((r > 0.01 && term.up > 0) || (r < -0.01 && term.down > 0)) return why;
  }
  return null;
}
