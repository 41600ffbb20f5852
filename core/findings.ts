/** Every finding a plan can carry: one table a stage, code to data. A code forgotten in words/ does not compile. */
import type { BondFindings } from "./stages/bond/findings.ts";
import type { CuttingFindings } from "./stages/cutting/findings.ts";
import type { FixingFindings } from "./stages/fixing/findings.ts";
import type { LayingFindings } from "./stages/laying/findings.ts";
import type { PreparationFindings } from "./stages/preparation/findings.ts";
import type { SetoutFindings } from "./stages/setout/findings.ts";
import type { SiteFindings } from "./stages/site/findings.ts";
import type { SurfaceFindings } from "./stages/surface/findings.ts";
import type { SurveyFindings } from "./stages/survey/findings.ts";
import type { TakeoffFindings } from "./stages/takeoff/findings.ts";

export type FindingData = SurveyFindings &
  SurfaceFindings &
  PreparationFindings &
  SetoutFindings &
  BondFindings &
  FixingFindings &
  CuttingFindings &
  LayingFindings &
  TakeoffFindings &
  SiteFindings;
