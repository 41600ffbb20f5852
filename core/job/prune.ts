import type { JsonPath, PathProblem } from "../read/problem.ts";
import type { Job } from "./job.ts";
import { normaliseJob } from "./normalise.ts";

/** What is left of a job file when the parts that break the schema are taken out, so that the rest can still be judged. */
export interface Pruned {
  job: Job;
  /** True where a path lies in, or above, something that was taken out. */
  dropped(path: JsonPath): boolean;
  /** A problem found in the pruned job, with its path as in the file (lists have shifted). */
  restore(problem: PathProblem): PathProblem;
}

/** Lists whose entries can be judged one by one. In all others the whole field goes. */
const LISTS = [
  ["site", "cutouts"],
  ["site", "noDrill"],
  ["site", "keepClear"],
  ["site", "loose"],
  ["site", "baseJoints"],
  ["site", "offsets"],
  ["survey", "ties"],
  ["survey", "straightedges"],
  ["base", "preparation", "materials"],
] as const;

/** Null where the file is no object at all. The given value is not changed. */
export function pruneJob(value: unknown, faulty: readonly JsonPath[]): Pruned | null {
  if (!isObject(value)) return null;
  if (faulty.length === 0) return { job: normaliseJob(value).job, dropped: () => false, restore: (problem) => problem };
  const copy = shallowTree(value);
  const cuts = faulty.map(cutAt);
  const shifts = new Map<string, number[]>();
  for (const list of LISTS) {
    const holder = at(copy, list.slice(0, -1));
    const key = list[list.length - 1]!;
    if (!isObject(holder) || !Array.isArray(holder[key])) continue;
    const gone = new Set(
      cuts.filter((cut) => cut.length > list.length && startsWith(cut, list)).map((cut) => cut[list.length]),
    );
    if (gone.size === 0) continue;
    const kept = (holder[key] as unknown[]).map((_, i) => i).filter((i) => !gone.has(i));
    shifts.set(list.join("."), kept);
    holder[key] = kept.map((i) => (at(copy, list) as unknown[])[i]);
  }
  for (const cut of cuts) {
    if (LISTS.some((list) => cut.length > list.length && startsWith(cut, list))) continue;
    const holder = at(copy, cut.slice(0, -1));
    if (isObject(holder)) delete holder[String(cut[cut.length - 1])];
  }
  standIn(copy);
  const dropped = (path: JsonPath): boolean => cuts.some((cut) => startsWith(path, cut) || startsWith(cut, path));
  const restore = (problem: PathProblem): PathProblem => ({ ...problem, path: shiftBack(problem.path, shifts) });
  return { job: normaliseJob(copy).job, dropped, restore };
}

function shiftBack(path: JsonPath, shifts: ReadonlyMap<string, number[]>): JsonPath {
  for (const [list, kept] of shifts) {
    const depth = list.split(".").length;
    const index = path[depth];
    if (typeof index !== "number" || path.slice(0, depth).join(".") !== list) continue;
    return [...path.slice(0, depth), kept[index] ?? index, ...path.slice(depth + 1)];
  }
  return path;
}

/** The part to take out: a list's entry where entries stand alone, else the field below the second level at most. */
function cutAt(path: JsonPath): JsonPath {
  const list = LISTS.find((one) => path.length > one.length && startsWith(path, one));
  if (list) return path.slice(0, list.length + 1);
  const firstIndex = path.findIndex((step) => typeof step === "number");
  return firstIndex < 0 ? path : path.slice(0, firstIndex);
}

/** Required fields that had to go are stood in for; what they would say is never reported (`dropped`). */
function standIn(copy: Record<string, unknown>): void {
  if (!isObject(copy.site)) copy.site = {};
  if (!isObject(copy.board)) copy.board = {};
  const board = copy.board as Record<string, unknown>;
  if (!Array.isArray(board.lengths)) board.lengths = [];
  if (typeof board.width !== "number") board.width = 0;
  if (typeof board.rise !== "number") board.rise = 0;
  if (typeof copy.title !== "string") copy.title = "";
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function startsWith(path: JsonPath, start: JsonPath): boolean {
  return path.length >= start.length && start.every((step, i) => step === path[i]);
}

function at(value: unknown, path: JsonPath): unknown {
  let here = value;
  for (const step of path) {
    if (isObject(here) && Object.hasOwn(here, step)) here = here[step];
    else if (Array.isArray(here)) here = here[Number(step)];
    else return undefined;
  }
  return here;
}

/** Copies objects, shares lists: only fields are ever taken out, and lists are replaced as a whole. */
function shallowTree(value: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(value).map(([key, child]) => [key, isObject(child) ? shallowTree(child) : child]),
  );
}
