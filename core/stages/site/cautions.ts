import type { Job } from "../../job/job.ts";
import type { SetoutRecord } from "../setout/record.ts";
import type { SurfaceStage } from "../surface/record.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { CautionCode } from "./record.ts";

/** From about this much field on the holes go into the hundreds (some sixteen fixings a square metre), mm2. */
const MANY_HOLES_MM2 = 8_000_000;

/** The cautions this job calls for, in the order of the work. */
export function cautionsFor(
  job: Job,
  survey: SurveyRecord,
  surface: SurfaceStage,
  setout: SetoutRecord,
): CautionCode[] {
  const { base } = job;
  const wet = surface.surface?.shapeVerdict === "prepare" || survey.loose.length > 0;
  const lifted = survey.loose.some((area) => area.kind !== "paving");
  const pool = survey.sides.some((side) => side.kind === "pool");
  const applies: [CautionCode, boolean][] = [
    ["services", true],
    ["asbestos", lifted],
    ["silica", base.kind !== "asphalt" || wet],
    ["wetCement", wet],
    ["rcd", true],
    ["saw", true],
    ["compositeDust", true],
    ["vibration", setout.fieldAreaUm2 / 1e6 >= MANY_HOLES_MM2],
    ["lifting", true],
    ["edgeHeight", base.suspended],
    ["load", base.suspended],
    ["peopleBelow", base.suspended],
    ["slips", !pool],
    ["poolSlips", pool],
    ["hotSurface", true],
    ["film", true],
  ];
  return applies.filter(([, yes]) => yes).map(([code]) => code);
}
