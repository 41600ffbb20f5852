import type { DeskWords } from "../desk.ts";
import { resume } from "./resume.ts";

const VERDICT = {
  accept: "accept: lay on it as it is",
  prepare: "prepare: make it right before you lay",
  "not-proven": "not proven: too few readings to say",
  stop: "stop: not to be laid on as things are",
};
const OPTION = {
  none: "as it is",
  patch: "grind and fill in places",
  plane: "one new plane",
  facets: "planes that meet",
};

export const desk: DeskWords = {
  unproved:
    "The plan did not stand up to the checker, so nothing was written. This is a fault of Rowline: please report it with the job file.",
  papersLie: "Papers:",
  proved: "Proved: the plan holds, rule by rule, from the two files alone.",
  notProved: (breaches) =>
    `Not proved: ${breaches} ${breaches === 1 ? "place breaks" : "places break"} a rule, and nothing excuses ${breaches === 1 ? "it" : "them"}. Do not lay by this plan.`,
  noBase: "Base: unknown. No levels were given, so nothing can be said of it.",
  level: { stop: "Stop", warn: "Mind", note: "Note" },
  noSchema: (name) => `There is no schema "${name}". There are job, plan and progress.`,
  resume,
  base: (surface, preparation, job, write) => {
    const { plane, zone, straightedge } = surface;
    const lines = [
      `Verdict         ${VERDICT[surface.verdict]}`,
      `Fall            ${write.percent(plane.fall)} toward ${write.number(plane.towards, 0)} degrees (limits ${write.percent(job.base.limits.fallMin)} to ${write.percent(job.base.limits.fallMax)})`,
      `Deviation       ${write.mm1(zone.halfWidthMm)} mm from the best plane (limit ${write.mm1(job.base.limits.deviation)} mm)`,
    ];
    if (straightedge)
      lines.push(
        `Straightedge    ${write.mm1(straightedge.gapMm)} mm under ${write.mm(straightedge.lengthMm)} mm at ${write.mm(straightedge.at[0])}, ${write.mm(straightedge.at[1])} (limit ${write.mm1(job.base.limits.unevenness)} mm)`,
      );
    if (surface.facets.length > 1) lines.push(`Facets          ${surface.facets.length}, each judged alone`);
    lines.push(`Puddles         ${surface.puddles.length}`);
    preparation.options.forEach((option, index) => {
      const mark = index === preparation.chosen ? "  <- cheapest that can be had" : "";
      lines.push(
        option.feasible
          ? `Option          ${OPTION[option.option]}: grind ${write.number(option.grindMm3 / 1e6, 1)} l, fill ${write.number(option.fillMm3 / 1e6, 1)} l, ${write.number(option.massKg, 0)} kg, ${write.money(option.costMinor, job.currency)}${mark}`
          : `Option          ${OPTION[option.option]}: cannot be had here`,
      );
    });
    return lines;
  },
};
