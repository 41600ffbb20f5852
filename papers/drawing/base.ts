import { directionOf } from "../../core/geometry/direction.ts";
import type { PlanRecord } from "../../core/plan/record.ts";
import type { SurfaceRecord } from "../../core/stages/surface/record.ts";
import { line, mark, polygon, polyline, stroke, text } from "../ink.ts";
import type { Item, Pt } from "../sheet.ts";
import { contourStepMm, drawContours } from "./contours.ts";
import { drawDeviation, drawLimitLines, planeAt } from "./deviation.ts";
import { drawSideLengths } from "./dimensions.ts";
import { drawFindings, type Numbered } from "./findings.ts";
import { type Look, lineBoxes, occupyLine, placeFirst, type Tongue, takePlaces } from "./look.ts";
import { moved } from "./plane.ts";
import { drawSite, keepOffSides, nameCutouts, nameSides, ringItem } from "./site.ts";

/** Paper length of the arrow of a fall of 1 %. */
export const FALL_MM = 3;
/** Above this many readings only those with a figure get a mark. */
const MANY_LEVELS = 2500;

/** Levels as figures, contours, fall arrows, puddles, the worst straightedge. Without levels: the outline alone. */
export function drawBase(record: PlanRecord, tongue: Tongue, look: Look, findings: readonly Numbered[] = []): Item[] {
  const items = drawSite(record, look);
  if (record.survey.slab) items.push(ringItem("slab", record.survey.slab, "medium", "dash"));
  const { surface } = record.surface;
  keepOffSides(record, look);
  const marks = drawFindings(findings, look);
  if (surface) {
    // Places are given to what matters most; what is drawn first lies below.
    const bar = drawStraightedge(surface, tongue, look);
    const puddles = drawPuddles(surface, tongue, look);
    const falls = drawFalls(surface, look);
    const levels = drawLevels(record, tongue, look);
    const figures = drawFallFigures(falls.shown, tongue, look);
    const contours = drawContours(surface, contourStepMm(surface, look.scale), tongue, look);
    items.push(...contours, ...puddles, ...levels, ...falls.items, ...figures, ...bar);
  }
  items.push(...marks);
  items.push(
    ...drawSideLengths(record, tongue, look, 0),
    ...nameSides(record, tongue, look),
    ...nameCutouts(record, look),
  );
  return items;
}

/** The deviation map with its figures, and what to fill or grind at each reading. */
export function drawDeviations(record: PlanRecord, tongue: Tongue, look: Look): Item[] {
  const { surface } = record.surface;
  if (!surface) return drawSite(record, look);
  const limit = record.job.base.limits.deviation;
  const items = [...drawDeviation(surface, limit), ...drawLimitLines(surface, limit, stroke("medium"))];
  items.push(...drawSite(record, look));
  keepOffSides(record, look);
  items.push(...drawStakes(record, tongue, look));
  items.push(...drawDeviationFigures(record, surface, tongue, look));
  items.push(...nameSides(record, tongue, look), ...nameCutouts(record, look));
  return items;
}

function drawLevels(record: PlanRecord, tongue: Tongue, look: Look): Item[] {
  const items: Item[] = [];
  const { levels } = record.survey;
  for (const { xMm, yMm, zMm } of levels) {
    const at: Pt = [xMm, yMm];
    const placed = placeFirst(look, items, beside(look, at, tongue.words.write.mm1(zMm), "levels", false));
    if (placed || levels.length <= MANY_LEVELS) items.push(mark("levels", at, "level", 1.4));
  }
  return items;
}

/** A figure to the upper right of a point, else at one of the other corners. */
function beside(look: Look, at: Pt, figure: string, layer: "levels" | "stakes" | "deviation", bold: boolean): Item[] {
  const by = (x: number, y: number): Pt => {
    const [cos, sin] = directionOf(-look.turnDeg);
    return [at[0] + (x * cos - y * sin) * look.scale, at[1] + (x * sin + y * cos) * look.scale];
  };
  const say = (x: number, y: number, align: "left" | "right"): Item => {
    const item = text(by(x, y), figure, { layer, align, bold, turnDeg: -look.turnDeg });
    return item.kind === "text" ? { ...item, ground: true } : item;
  };
  return [say(0.8, 0.8, "left"), say(0.8, -3.3, "left"), say(-0.8, 0.8, "right"), say(-0.8, -3.3, "right")];
}

/** Arrows down the fall, as long as the fall, from the place they speak of; one that would cross another is left out. */
function drawFalls(surface: SurfaceRecord, look: Look): { items: Item[]; shown: Fall[] } {
  const items: Item[] = [];
  const shown = surface.falls.filter(({ at, fall, towards }) => {
    const along = directionOf(towards);
    const run = lineBoxes(look, at, moved(at, along, fallMm(fall) * look.scale), 0.4);
    if (!takePlaces(look.room, run, true)) return false;
    items.push(...arrow(look, at, along, fallMm(fall)));
    return true;
  });
  return { items, shown };
}

type Fall = SurfaceRecord["falls"][number];

function fallMm(fall: number): number {
  return Math.min(fall * FALL_MM, 30);
}

/** The fall in % beside its arrow, where there is room. */
function drawFallFigures(falls: readonly Fall[], tongue: Tongue, look: Look): Item[] {
  const items: Item[] = [];
  for (const { at, fall, towards } of falls) {
    const along: Pt = directionOf(towards);
    const side: Pt = [-along[1], along[0]];
    const half = moved(at, along, (fallMm(fall) * look.scale) / 2);
    const places = [
      moved(half, side, 2.4 * look.scale),
      moved(half, side, -2.4 * look.scale),
      moved(at, along, (fallMm(fall) + 3.5) * look.scale),
    ];
    placeFirst(
      look,
      items,
      places.map((foot) =>
        text(foot, tongue.words.write.number(fall, 1), {
          layer: "falls",
          align: "centre",
          stand: "middle",
          turnDeg: -look.turnDeg,
        }),
      ),
    );
  }
  return items;
}

/** An arrow of a paper length: its head keeps one size, so that long arrows do not shout. */
export function arrow(
  look: { scale: number },
  from: Pt,
  along: Pt,
  lengthMm: number,
  layer: "falls" | "frame" = "falls",
): Item[] {
  const head = Math.min(2, lengthMm * 0.5) * look.scale;
  const tip = moved(from, along, lengthMm * look.scale);
  const neck = moved(tip, along, -head);
  const side: Pt = [-along[1], along[0]];
  return [
    line(layer, from, neck, stroke("medium")),
    polygon(layer, [tip, moved(neck, side, head * 0.3), moved(neck, side, -head * 0.3)], stroke("thin"), {
      colour: "#1a1a1a",
    }),
  ];
}

function drawPuddles(surface: SurfaceRecord, tongue: Tongue, look: Look): Item[] {
  const items: Item[] = [];
  for (const puddle of surface.puddles) {
    items.push(
      polygon("puddles", puddle.ring, stroke("medium", "dot"), { hatchDeg: 0, spacingMm: 1.2, tone: "accent" }),
    );
    const words = tongue.labels.base.puddleDepth(tongue.words.write.mm1(puddle.depthMm));
    const [x, y] = [0, 4.5 * look.scale];
    const choices = [
      puddle.at,
      [puddle.at[0] + x, puddle.at[1] + y] as const,
      [puddle.at[0] + x, puddle.at[1] - y] as const,
    ];
    placeFirst(
      look,
      items,
      choices.map((at) => {
        const item = text(at, words, { layer: "puddles", align: "centre", stand: "middle", turnDeg: -look.turnDeg });
        return item.kind === "text" ? { ...item, ground: true } : item;
      }),
    );
  }
  return items;
}

function drawStraightedge(surface: SurfaceRecord, tongue: Tongue, look: Look): Item[] {
  const bar = surface.straightedge;
  if (!bar) return [];
  const items: Item[] = [];
  const dx = bar.to[0] - bar.from[0];
  const dy = bar.to[1] - bar.from[1];
  const length = Math.sqrt(dx * dx + dy * dy) || 1;
  const side: Pt = [(-dy / length) * look.scale, (dx / length) * look.scale];
  items.push(line("straightedge", bar.from, bar.to, stroke("thick")));
  for (const end of [bar.from, bar.to])
    items.push(line("straightedge", moved(end, side, -1.3), moved(end, side, 1.3), stroke("thick")));
  items.push(polyline("straightedge", [moved(bar.at, side, 0), moved(bar.at, side, 3)], stroke("medium")));
  const words = tongue.labels.base.straightedgeGap(
    tongue.words.write.mm1(bar.gapMm),
    tongue.words.write.mm(bar.lengthMm),
  );
  const across = [3.4, -3.4, 7, -7];
  placeFirst(
    look,
    items,
    across.map((out) => {
      const at = moved(bar.at, side, out);
      const item = text([at[0], at[1]], words, {
        layer: "straightedge",
        bold: true,
        align: "centre",
        stand: "middle",
        turnDeg: -look.turnDeg,
      });
      return item.kind === "text" ? { ...item, ground: true } : item;
    }),
  );
  occupyLine(look, bar.from, bar.to, 0.5);
  return items;
}

/** Fill or grind at each reading of the option chosen, from half a millimetre on. */
function drawStakes(record: PlanRecord, tongue: Tongue, look: Look): Item[] {
  const { options, chosen } = record.preparation;
  const option = chosen === null ? null : options[chosen];
  if (!option) return [];
  const items: Item[] = [];
  for (const { at, changeMm } of option.stakes) {
    if (Math.abs(changeMm) < 0.5) continue;
    const figure = tongue.words.write.mm1(Math.abs(changeMm));
    const words = changeMm > 0 ? tongue.labels.base.fill(figure) : tongue.labels.base.grind(figure);
    if (placeFirst(look, items, beside(look, at, words, "stakes", true))) items.push(mark("stakes", at, "level", 1.8));
  }
  return items;
}

function drawDeviationFigures(record: PlanRecord, surface: SurfaceRecord, tongue: Tongue, look: Look): Item[] {
  const items: Item[] = [];
  for (const { xMm, yMm, zMm } of record.survey.levels) {
    const plane = planeAt(surface, [xMm, yMm]);
    const d = zMm - (plane.a * xMm + plane.b * yMm + plane.c);
    const figure = tongue.words.write.mm1(d);
    const sign = d > 0 && /[1-9]/.test(figure) ? "+" : "";
    if (placeFirst(look, items, beside(look, [xMm, yMm], sign + figure, "deviation", false)))
      items.push(mark("deviation", [xMm, yMm], "level", 1));
  }
  return items;
}
