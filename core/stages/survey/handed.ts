import type { Job } from "../../job/job.ts";
import { crossingsOf } from "./crossings.ts";

export type Points = (readonly [x: number, y: number])[];

/**
 * Tapes cannot tell a shape from its mirror image. Marks are taken to run counter-clockwise, with the terrace to their
 * left, unless more of what else was measured in their frame (levels, cut-outs, straightedges) lies in the mirror image.
 */
export function handedness(job: Job, points: Points): { clockwise: boolean; readings: number } {
  const seen = [
    ...job.survey.levels.slice(0, 2000).map(([x, y]) => [x, y] as const),
    ...job.survey.straightedges.slice(0, 500).flatMap(({ from, to }) => [from, to]),
    ...job.site.cutouts.slice(0, 500).flatMap(({ ring }) => ring.map(([x, y]) => [x, y] as const)),
  ];
  let here = 0;
  let there = 0;
  for (const [x, y] of seen) {
    if (inside(points, x, y)) here++;
    if (inside(points, x, -y)) there++;
  }
  return { clockwise: there > here, readings: there };
}

/** Whether the closed line through the points neither crosses nor touches itself. */
export function isSimple(points: Points): boolean {
  const um = (value: number): number => Math.round(value * 1000);
  const ring = { xsUm: Float64Array.from(points, (p) => um(p[0])), ysUm: Float64Array.from(points, (p) => um(p[1])) };
  return crossingsOf(ring, 1).length === 0;
}

/** Positive where the points run counter-clockwise, mm2. */
export function signedArea(points: Points): number {
  let twice = 0;
  for (let i = 0; i < points.length; i++) {
    const [p, q] = [points[i]!, points[(i + 1) % points.length]!];
    twice += p[0] * q[1] - q[0] * p[1];
  }
  return twice / 2;
}

function inside(points: Points, x: number, y: number): boolean {
  let odd = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const [ax, ay] = points[j]!;
    const [bx, by] = points[i]!;
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) odd = !odd;
  }
  return odd;
}
