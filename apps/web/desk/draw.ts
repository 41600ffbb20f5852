import type { PlanRecord } from "../../../core/plan/record.ts";
import { drawBase, drawDeviations } from "../../../papers/drawing/base.ts";
import { drawFixing } from "../../../papers/drawing/fixing.ts";
import { lookAt, type Tongue } from "../../../papers/drawing/look.ts";
import { drawSetout } from "../../../papers/drawing/setout.ts";
import { drawSite, keepOffSides, nameCutouts, nameSides } from "../../../papers/drawing/site.ts";
import type { Item, Layer } from "../../../papers/sheet.ts";
import type { Words } from "../../../words/words.ts";
import type { DrawAsk, Drawing, DrawingName } from "./asks.ts";

/** A step's layer of a plan, in site millimetres. Findings are drawn by the page, which knows which one is looked at. */
export function drawLayer(record: PlanRecord, words: Words, ask: DrawAsk): Drawing {
  const look = lookAt(ask.scale, ask.turnDeg);
  return { ...ask, items: LAYERS[ask.name](record, { words, labels: words.drawing }, look) };
}

const LAYERS: Record<DrawingName, (record: PlanRecord, tongue: Tongue, look: ReturnType<typeof lookAt>) => Item[]> = {
  survey(record, tongue, look) {
    const items = drawSite(record, look);
    keepOffSides(record, look);
    items.push(...nameSides(record, tongue, look), ...nameCutouts(record, look));
    return items;
  },
  base: (record, tongue, look) => drawBase(record, tongue, look),
  /** The map under what water does; the levels' figures give way to the deviations'. */
  deviation(record, tongue, look) {
    // Water and falls take their places first; the map lies below them.
    const over = drawBase(record, tongue, look).filter(({ layer }) => OVER_MAP.has(layer));
    const map = drawDeviations(record, tongue, look).filter(({ layer }) => layer !== "stakes");
    return [...map, ...over];
  },
  /** What to grind and fill at each reading, over the map. */
  stakes: (record, tongue, look) =>
    drawDeviations(record, tongue, look).filter(
      ({ layer, kind }) => layer !== "deviation" || (kind !== "text" && kind !== "mark"),
    ),
  setout: (record, tongue, look) => drawSetout(record, tongue, look),
  fixing: (record, tongue, look) => drawFixing(record, tongue, look),
};

/** Layers of the base's drawing that are read over the map. */
const OVER_MAP: ReadonlySet<Layer> = new Set(["slab", "contours", "falls", "puddles", "straightedge"]);
