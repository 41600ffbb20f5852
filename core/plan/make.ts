import { chooseBond } from "../stages/bond/bond.ts";
import { cutBoards } from "../stages/cutting/cutting.ts";
import { fixClips } from "../stages/fixing/fixing.ts";
import { orderLaying } from "../stages/laying/laying.ts";
import { prepareBase } from "../stages/preparation/preparation.ts";
import type { SetoutRecord } from "../stages/setout/record.ts";
import { setOut } from "../stages/setout/setout.ts";
import { judgeSite } from "../stages/site/site.ts";
import { judgeSurface } from "../stages/surface/surface.ts";
import { takeOff } from "../stages/takeoff/takeoff.ts";
import type { LoadedJob } from "./load.ts";
import type { PlanRecord } from "./record.ts";

/** The stages in the job's own order, as a caller may show them. */
export const STAGES = [
  "surface",
  "preparation",
  "setout",
  "bond",
  "fixing",
  "cutting",
  "laying",
  "takeoff",
  "site",
] as const;
export type StageName = (typeof STAGES)[number];

/** The set-out alone, for a job whose direction is given: what a row grid looks like before anything is planned on it. */
export function gridOf({ read, survey }: LoadedJob): SetoutRecord {
  return setOut(read.job, survey, { surface: null, findings: [] });
}

/** What is known of the base before anything is set out on it: the same for every set-out of a job. */
export type Judged = Pick<PlanRecord, "surface" | "preparation">;

/** Rows and joints alone, on a base that is judged: what a set-out looks like while it is being moved. */
export function tryRows({ read, survey }: LoadedJob, { surface }: Judged): Pick<PlanRecord, "setout" | "bond"> {
  const setout = setOut(read.job, survey, surface);
  return { setout, bond: chooseBond(read.job, setout) };
}

/**
 * The story: a loaded job goes down the stages, one after another.
 * `onStage` hears each stage's name before it starts; what it throws ends the work (that is how a user stops it).
 * `judged` is what an earlier plan of the same site, survey and base found: then the base is not judged again.
 */
export function makePlan(
  loaded: LoadedJob,
  onStage: (stage: StageName) => void = () => {},
  judged?: Judged,
): PlanRecord {
  const { job } = loaded.read;
  const { survey } = loaded;
  if (!judged) onStage("surface");
  const surface = judged?.surface ?? judgeSurface(job, survey);
  if (!judged) onStage("preparation");
  const preparation = judged?.preparation ?? prepareBase(job, survey, surface);
  onStage("setout");
  const setout = setOut(job, survey, surface);
  onStage("bond");
  const bond = chooseBond(job, setout);
  onStage("fixing");
  const fixing = fixClips(job, setout, bond);
  onStage("cutting");
  const cutting = cutBoards(job, setout, bond);
  onStage("laying");
  const laying = orderLaying(job, setout, bond, fixing);
  onStage("takeoff");
  const takeoff = takeOff(job, survey, preparation, setout, bond, fixing, cutting);
  onStage("site");
  const site = judgeSite(job, survey, surface, setout);
  return {
    job,
    jobHash: loaded.read.hash,
    defaultsUsed: loaded.read.defaultsUsed,
    survey,
    surface,
    preparation,
    setout,
    bond,
    fixing,
    cutting,
    laying,
    takeoff,
    site,
  };
}
