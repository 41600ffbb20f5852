import { STEPS, type StepId } from "../../../words/app.ts";
import type { DrawingName } from "../desk/asks.ts";
import type { Step, StepPanel } from "./step.ts";

const soon = async () => import("./soon.tsx") as Promise<{ default: StepPanel }>;

/** The road in the job's own order. A step's author gives its panel (lazy) and the layer it shows. */
const ROAD: Record<StepId, { draws: DrawingName; panel: Step["panel"] }> = {
  measure: { draws: "survey", panel: soon },
  base: { draws: "base", panel: soon },
  prepare: { draws: "base", panel: soon },
  setout: { draws: "setout", panel: soon },
  fix: { draws: "fixing", panel: soon },
  cut: { draws: "setout", panel: soon },
  order: { draws: "setout", panel: soon },
  price: { draws: "setout", panel: soon },
  days: { draws: "setout", panel: soon },
  lay: { draws: "fixing", panel: soon },
  handover: { draws: "setout", panel: soon },
};

export const ROAD_STEPS: readonly Step[] = STEPS.map((id) => ({ id, ...ROAD[id] }));
