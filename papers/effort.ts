import type { PlanRecord } from "../core/plan/record.ts";

/** Pace 15 m2 in 5 h; 45 s a hole; an hour a day to set up and clear away; 8 h a day: common practice, no source. */
const HOURS_A_M2 = 5 / 15;
const SECONDS_A_HOLE = 45;
const SETUP_HOURS = 1;
const DAY_HOURS = 8;

export interface Effort {
  lowHours: number;
  highHours: number;
  lowDays: number;
  highDays: number;
}

/**
 * Hours of people for laying, as a range. Low: one person keeps the pace with drilling in it. High: it takes two people
 * to keep it, and the holes come on top (twice the time through tiles). Set-up and clearing for each begun day.
 * Days are of the crew named: one person, two people.
 */
export function effortOf(record: PlanRecord): Effort {
  const areaM2 = record.setout.fieldAreaUm2 / 1e12;
  const holes = holesOf(record);
  const pace = areaM2 * HOURS_A_M2;
  const drilling = (holes * SECONDS_A_HOLE * (record.job.base.kind === "tiles" ? 2 : 1)) / 3600;
  const lowDays = daysOf(pace);
  const highDays = daysOf(pace + drilling / 2);
  return {
    lowHours: pace + lowDays * SETUP_HOURS,
    highHours: 2 * pace + drilling + 2 * highDays * SETUP_HOURS,
    lowDays,
    highDays,
  };
}

/** Holes in the base: every hole of every clip. */
export function holesOf(record: PlanRecord): number {
  return record.fixing.clips.length * record.job.clips.fixing.holes.length;
}

function daysOf(hours: number): number {
  return Math.max(1, Math.ceil(hours / (DAY_HOURS - SETUP_HOURS) - 1e-9));
}
