import { figures } from "../figures.ts";
import { problemSayer } from "../say.ts";
import type { Words } from "../words.ts";
import { bond } from "./bond.ts";
import { sayBreach, sayExcused } from "./check.ts";
import { cutting } from "./cutting.ts";
import { desk } from "./desk.ts";
import { drawingLabels } from "./drawing.ts";
import { fixing } from "./fixing.ts";
import { laying } from "./laying.ts";
import { papers } from "./papers.ts";
import { preparation } from "./preparation.ts";
import { problems } from "./problems.ts";
import { reasons } from "./reasons.ts";
import { setout } from "./setout.ts";
import { site } from "./site.ts";
import { surface } from "./surface.ts";
import { survey } from "./survey.ts";
import { takeoff } from "./takeoff.ts";

const write = figures({ decimal: ".", thin: "\u2009" });

/** English: every sentence of every stage, and how figures are written. */
export const en: Words = {
  language: "en",
  write,
  findings: {
    ...survey,
    ...surface,
    ...preparation,
    ...setout,
    ...bond,
    ...fixing,
    ...cutting,
    ...laying,
    ...takeoff,
    ...site,
  },
  reasons,
  papers,
  drawing: drawingLabels,
  desk,
  sayProblem: problemSayer(problems, write),
  sayBreach: (breach) => sayBreach(breach, write),
  sayExcused: (excused) => sayExcused(excused, write),
};
