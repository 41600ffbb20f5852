import { toUm } from "../../base/units.ts";
import type { SurveyRecord } from "./record.ts";
import { type FlatRing, type Origin, whereIs } from "./ring.ts";

type Level = SurveyRecord["levels"][number];

/**
 * Levels at most `withinMm` outside the outline stand on its line: a staff held at the wall is on the base, however the
 * tape placed the wall. The others stay as they are. O(levels x corners).
 */
export function ontoRim(levels: readonly Level[], outline: FlatRing, origin: Origin, withinMm: number): Level[] {
  return levels.map((level) => {
    const [x, y] = [toUm(level.xMm - origin.xMm), toUm(level.yMm - origin.yMm)];
    if (whereIs(outline, x, y) !== -1) return level;
    const near = nearest(outline, x, y);
    if (near.awayUm > toUm(withinMm)) return level;
    return { ...level, xMm: near.xUm / 1000 + origin.xMm, yMm: near.yUm / 1000 + origin.yMm };
  });
}

/** On the line but for rounding to whole micrometres. */
export function onRim(outline: FlatRing, xUm: number, yUm: number): boolean {
  return nearest(outline, xUm, yUm).awayUm <= 2;
}

/** The ring's point nearest to a place. */
function nearest({ xsUm, ysUm }: FlatRing, x: number, y: number): { xUm: number; yUm: number; awayUm: number } {
  let best = { xUm: x, yUm: y, awayUm: Number.POSITIVE_INFINITY };
  for (let i = 0, j = xsUm.length - 1; i < xsUm.length; j = i++) {
    const [ax, ay] = [xsUm[j]!, ysUm[j]!];
    const [dx, dy] = [xsUm[i]! - ax, ysUm[i]! - ay];
    const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    const [xUm, yUm] = [ax + t * dx, ay + t * dy];
    const awayUm = Math.sqrt((xUm - x) * (xUm - x) + (yUm - y) * (yUm - y));
    if (awayUm < best.awayUm) best = { xUm, yUm, awayUm };
  }
  return best;
}
