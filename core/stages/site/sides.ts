import type { SurveyRecord } from "../survey/record.ts";

/** Middle of a side's chord, site mm. */
export function middleOf(survey: SurveyRecord, side: number): [number, number] {
  const p = survey.outline[side]!;
  const q = survey.outline[(side + 1) % survey.outline.length]!;
  return [Math.round((p[0] + q[0]) * 500) / 1000, Math.round((p[1] + q[1]) * 500) / 1000];
}

/** Unit vector out of the site at the middle of a side's chord (the outline runs counter-clockwise). */
export function outwardOf(survey: SurveyRecord, side: number): [number, number] {
  const p = survey.outline[side]!;
  const q = survey.outline[(side + 1) % survey.outline.length]!;
  const dx = q[0] - p[0];
  const dy = q[1] - p[1];
  const length = Math.sqrt(dx * dx + dy * dy);
  return length === 0 ? [0, 0] : [dy / length, -dx / length];
}
