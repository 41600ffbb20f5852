import { STEPS, type StepId } from "../../../words/app.ts";
import type { DrawingName } from "../desk/asks.ts";
import type { Step } from "./step.ts";

/** The road in the job's own order. A step's author gives its panel (lazy) and the layer it shows. */
const ROAD: Record<StepId, { draws: DrawingName; panel: Step["panel"] }> = {
  measure: { draws: "survey", panel: () => import("./measure/panel.tsx") },
  base: { draws: "deviation", panel: () => import("./base/panel.tsx") },
  prepare: { draws: "stakes", panel: () => import("./prepare/panel.tsx") },
  setout: { draws: "setout", panel: () => import("./setout/panel.tsx") },
  fix: { draws: "fixing", panel: () => import("./fix/panel.tsx") },
  cut: { draws: "setout", panel: () => import("./cut/panel.tsx") },
  order: { draws: "setout", panel: () => import("./order/panel.tsx") },
  price: { draws: "setout", panel: () => import("./price/panel.tsx") },
  days: { draws: "setout", panel: () => import("./days/panel.tsx") },
  lay: { draws: "fixing", panel: () => import("./lay/panel.tsx") },
  handover: { draws: "setout", panel: () => import("./handover/panel.tsx") },
};

export const ROAD_STEPS: readonly Step[] = STEPS.map((id) => ({ id, ...ROAD[id] }));
