import { figures } from "../figures.ts";
import type { Words } from "../words.ts";
import { bond } from "./bond.ts";
import { cutting } from "./cutting.ts";
import { fixing } from "./fixing.ts";
import { laying } from "./laying.ts";
import { preparation } from "./preparation.ts";
import { setout } from "./setout.ts";
import { site } from "./site.ts";
import { surface } from "./surface.ts";
import { survey } from "./survey.ts";
import { takeoff } from "./takeoff.ts";

/** English: every sentence of every stage, and how figures are written. */
export const en: Words = {
  language: "en",
  write: figures({ decimal: ".", thin: "\u2009" }),
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
};
