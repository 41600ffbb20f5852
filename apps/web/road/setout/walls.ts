import { degreesOf } from "../../../../core/geometry/direction.ts";
import type { SurveyRecord } from "../../../../core/stages/survey/record.ts";

/** A direction that a wall gives: along it, or across it. */
export interface WallWay {
  side: number;
  way: "along" | "across";
  angleDeg: number;
}
const MOST = 6;
const ALIKE_DEG = 0.05;

/** Along and across every straight side, longest first, each direction once. Half turns count as one. */
export function wallWays(survey: SurveyRecord): WallWay[] {
  const sides = survey.outline.flatMap(([x0, y0, bulge], i) => {
    if (bulge !== 0) return [];
    const [x1, y1] = survey.outline[(i + 1) % survey.outline.length]!;
    return [{ side: survey.sides[i]!.source, deg: degreesOf(x1 - x0, y1 - y0), long: Math.hypot(x1 - x0, y1 - y0) }];
  });
  sides.sort((a, b) => b.long - a.long);
  const out: WallWay[] = [];
  for (const { side, deg } of sides)
    for (const way of ["along", "across"] as const) {
      const angleDeg = tidy(deg + (way === "along" ? 0 : 90));
      if (out.length < MOST && !out.some((known) => alike(known.angleDeg, angleDeg))) out.push({ side, way, angleDeg });
    }
  return out;
}

/** True where two angles are one line. */
export function alike(a: number, b: number): boolean {
  const off = (((a - b) % 180) + 180) % 180;
  return off < ALIKE_DEG || off > 180 - ALIKE_DEG;
}

function tidy(deg: number): number {
  return Math.round((((deg % 180) + 180) % 180) * 1000) / 1000;
}
