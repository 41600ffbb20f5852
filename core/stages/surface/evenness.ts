import type { FindingsOf } from "../../base/finding.ts";
import type { BarRest } from "../../geometry/straightedge.ts";
import type { Job } from "../../job/job.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { SurfaceFindings } from "./findings.ts";

type Found = FindingsOf<SurfaceFindings>;
/** A limit is broken beyond this, mm: the last digits of a sum are not a breach. */
const HAIR_MM = 1e-6;

/** Bars with a gap over the limit, merged: places less than half a straightedge apart are one area. Worst first. */
export function unevenAreas(over: readonly BarRest[], limitMm: number, lengthMm: number): Found[] {
  return mergePlaces(
    over.filter((b) => b.gapMm > limitMm + HAIR_MM),
    lengthMm / 2,
  ).map((group) => {
    const worst = group[0]!;
    return {
      ...({
        code: "unevenness",
        rule: "unevenness",
        level: "warn",
        at: worst.at,
        found: worst.gapMm,
        limit: limitMm,
      } as const),
      releasedBy: null,
      data: { gapMm: worst.gapMm, limitMm, lengthMm, places: group.length },
    };
  });
}

/** Straightedge-and-wedge readings over the limit, each where it was taken. */
export function unevenReadings(job: Job, survey: SurveyRecord): Found[] {
  const limitMm = job.base.limits.unevenness;
  return survey.straightedges
    .filter((s) => s.gapMm > limitMm + HAIR_MM)
    .map((s) => ({
      ...({ code: "unevennessRead", rule: "unevenness", level: "warn", at: barOf(s).at, found: s.gapMm } as const),
      limit: limitMm,
      releasedBy: null,
      data: { gapMm: s.gapMm, limitMm, lengthMm: barLength(s) },
    }));
}

/** A reading as a bar; the wedge is taken to have stood in its middle. */
export function barOf(s: SurveyRecord["straightedges"][number]): BarRest {
  const at: [number, number] = [(s.from[0] + s.to[0]) / 2, (s.from[1] + s.to[1]) / 2];
  return { gapMm: s.gapMm, from: [s.from[0], s.from[1]], to: [s.to[0], s.to[1]], at };
}

export function barLength(s: SurveyRecord["straightedges"][number]): number {
  const dx = s.to[0] - s.from[0];
  const dy = s.to[1] - s.from[1];
  return Math.sqrt(dx * dx + dy * dy);
}

/** Groups by connected cells of `cellMm`, each worst first, groups in order of their worst. */
function mergePlaces(bars: readonly BarRest[], cellMm: number): BarRest[][] {
  const cells = new Map<string, BarRest[]>();
  const keyOf = (x: number, y: number) => `${x},${y}`;
  for (const b of [...bars].sort((p, q) => q.gapMm - p.gapMm)) {
    const key = keyOf(Math.floor(b.at[0] / cellMm), Math.floor(b.at[1] / cellMm));
    const cell = cells.get(key);
    if (cell) cell.push(b);
    else cells.set(key, [b]);
  }
  const groups: BarRest[][] = [];
  const seen = new Set<string>();
  for (const start of cells.keys()) {
    if (seen.has(start)) continue;
    seen.add(start);
    const group: BarRest[] = [];
    const todo = [start];
    for (let key = todo.pop(); key !== undefined; key = todo.pop()) {
      group.push(...cells.get(key)!);
      const [cx, cy] = key.split(",").map(Number) as [number, number];
      for (let dx = -1; dx <= 1; dx++) {
        for (let dy = -1; dy <= 1; dy++) {
          const near = keyOf(cx + dx, cy + dy);
          if (!cells.has(near) || seen.has(near)) continue;
          seen.add(near);
          todo.push(near);
        }
      }
    }
    groups.push(group.sort((p, q) => q.gapMm - p.gapMm));
  }
  return groups.sort((p, q) => q[0]!.gapMm - p[0]!.gapMm);
}
