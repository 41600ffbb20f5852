import type { Job } from "../job/job.ts";
import type { BondRecord } from "../stages/bond/record.ts";
import type { CuttingRecord } from "../stages/cutting/record.ts";
import type { FixingRecord } from "../stages/fixing/record.ts";
import type { LayingRecord } from "../stages/laying/record.ts";
import type { PreparationRecord } from "../stages/preparation/record.ts";
import type { SetoutRecord } from "../stages/setout/record.ts";
import type { SiteRecord } from "../stages/site/record.ts";
import type { SurfaceStage } from "../stages/surface/record.ts";
import type { SurveyRecord } from "../stages/survey/record.ts";
import type { TakeoffRecord } from "../stages/takeoff/record.ts";

/** Everything computed from a job, stage by stage; papers and screens draw from it, the plan file is written from it. */
export interface PlanRecord {
  job: Job;
  jobHash: string;
  defaultsUsed: string[];
  survey: SurveyRecord;
  surface: SurfaceStage;
  preparation: PreparationRecord;
  setout: SetoutRecord;
  bond: BondRecord;
  fixing: FixingRecord;
  cutting: CuttingRecord;
  laying: LayingRecord;
  takeoff: TakeoffRecord;
  site: SiteRecord;
}
