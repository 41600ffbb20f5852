/** Values of common practice that can be worked out by the main job itself. None has a published source. */
import { loadJob } from "../core/plan/load.ts";
import { prepareBase } from "../core/stages/preparation/preparation.ts";
import { judgeSurface } from "../core/stages/surface/surface.ts";
import type { Proof } from "./proof.ts";

const PRACTICE = "common practice, no source";

/** A level square of 3 m, 40 mm below a rim one reading wide: what filling the pit puts on its heaviest square metre. */
function filledPitKgPerM2(): number {
  const at = [0, 500, 1000, 1500, 2000, 2500, 3000];
  const levels = at.flatMap((x) => at.map((y) => [x, y, [0, 3000].includes(x) || [0, 3000].includes(y) ? 0 : -40]));
  const raw = {
    format: "rowline/job@1",
    title: "Pit",
    site: {
      outline: [
        [0, 0],
        [3000, 0],
        [3000, 3000],
        [0, 3000],
      ],
    },
    survey: { levels },
    base: {
      membrane: false,
      heating: false,
      tendons: false,
      limits: { fallMin: 0, fallLocalMin: 0 },
      preparation: { materials: [{ name: "filling", kind: "shaped", min: 3, max: 50, cost: 3500, density: 1.8 }] },
    },
    board: { lengths: [{ length: 1500, price: 1000 }], width: 145, rise: 25 },
  };
  const loaded = loadJob(JSON.stringify(raw), "pit");
  if (!loaded.ok) throw new Error(loaded.problems.map((problem) => `${problem.place} ${problem.code}`).join("; "));
  const { read, survey } = loaded.value;
  const { options } = prepareBase(read.job, survey, judgeSurface(read.job, survey));
  return Math.max(...options.filter(({ option }) => option === "plane").map(({ massPerM2Kg }) => massPerM2Kg));
}

export const practiceProofs: Proof[] = [
  {
    id: "practice-filling-mass",
    claim: "added mass of 40 mm of filling of density 1.8, on the heaviest square metre of a filled pit",
    source: PRACTICE,
    status: "practice",
    published: 72,
    ours: filledPitKgPerM2(),
    allowed: 1e-9,
    unit: "kg/m2",
    why: "double precision",
  },
];
