import type { FindingsOf } from "../../base/finding.ts";
import { degreesOf } from "../../geometry/direction.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { SetoutFindings } from "./findings.ts";

/** A shorter side says nothing of how the terrace lies, mm. */
const LONG_MM = 500;
/** Nearer than this to along or across a side, the rows follow it, degrees. */
const ALONG_DEG = 1;

/**
 * A note where the rows follow no long straight side, neither along nor across: every row end and edge is then cut at a
 * slant, which is seldom meant where the angle was left at its default. Names the side they come nearest to, of equals
 * the longest, and its direction from 0 to 180 degrees. Null where they follow one, or none is long. O(sides).
 */
export function askewRows(survey: SurveyRecord, angleDeg: number): FindingsOf<SetoutFindings> | null {
  let best: { offDeg: number; lengthMm: number; sideDeg: number; side: number; at: [number, number] } | null = null;
  for (const [i, [x0, y0, bulge]] of survey.outline.entries()) {
    const [x1, y1] = survey.outline[(i + 1) % survey.outline.length]!;
    const lengthMm = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
    if (bulge !== 0 || lengthMm <= LONG_MM) continue;
    const sideDeg = hundredths(degreesOf((x1 - x0) / lengthMm, (y1 - y0) / lengthMm));
    const turn = (((sideDeg - angleDeg) % 90) + 90) % 90;
    const offDeg = Math.min(turn, 90 - turn);
    if (offDeg <= ALONG_DEG) return null;
    const nearer = best === null || offDeg < best.offDeg - 0.01;
    if (nearer || (offDeg < best!.offDeg + 0.01 && lengthMm > best!.lengthMm))
      best = { offDeg, lengthMm, sideDeg, side: survey.sides[i]!.source, at: [(x0 + x1) / 2, (y0 + y1) / 2] };
  }
  if (best === null) return null;
  const { at, offDeg, sideDeg, side } = best;
  return {
    code: "rowsAskew",
    rule: "frame",
    level: "note",
    at,
    found: angleDeg,
    limit: sideDeg % 180,
    releasedBy: null,
    data: { angleDeg, sideDeg: sideDeg % 180, offDeg: hundredths(offDeg), side },
  };
}

function hundredths(deg: number): number {
  return Math.round(deg * 100) / 100 + 0;
}
