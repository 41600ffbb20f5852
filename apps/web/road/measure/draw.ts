import { degreesOf } from "../../../../core/geometry/direction.ts";
import { distance } from "../../../../core/measure/walk.ts";
import { line, mark, polygon, polyline, stroke, text } from "../../../../papers/ink.ts";
import type { Item, Layer, Pt } from "../../../../papers/sheet.ts";

const CHALK = stroke("medium", "solid", "accent");
const DASHED = stroke("thin", "dash", "accent");

/** Names of corners, as chalked, outside the outline. */
export function drawCorners(names: readonly string[], points: readonly Pt[], chosen: number | null = null): Item[] {
  const [mx, my] = [0, 1].map((axis) => points.reduce((sum, at) => sum + at[axis]!, 0) / points.length) as [
    number,
    number,
  ];
  return points.flatMap((at, i): Item[] => {
    const left = at[0] < mx;
    const name = text(at, left ? `${names[i]}\u2002` : `\u2002${names[i]}`, {
      layer: "datum",
      heightMm: 3.5,
      bold: true,
      tone: "accent",
      align: left ? "right" : "left",
      stand: at[1] < my ? "top" : "base",
    });
    return i === chosen ? [mark("datum", at, "datum", 5, 0, "accent"), name] : [name];
  });
}

/** A side picked out. */
export function drawChosenSide(from: Pt, to: Pt): Item[] {
  return [line("datum", from, to, stroke("thick", "solid", "accent"))];
}

/** A taped distance. A doubtful one is thick, marked with the warning sign and named; a fitting one thin. */
export function drawTape(from: Pt, to: Pt, figure: string, doubtful: string | null): Item[] {
  const middle: Pt = [from[0] + (to[0] - from[0]) * 0.4, from[1] + (to[1] - from[1]) * 0.4];
  const turn = degreesOf(to[0] - from[0], to[1] - from[1]);
  const turnDeg = turn > 90 && turn <= 270 ? turn - 180 : turn;
  const words = doubtful ? `${doubtful} ${figure}` : figure;
  const items: Item[] = [
    line("dimensions", from, to, doubtful ? stroke("thick", "dash", "accent") : stroke("thin", "chain", "grey")),
    {
      ...text(middle, words, {
        layer: "dimensions",
        align: "centre",
        stand: "middle",
        turnDeg,
        bold: doubtful !== null,
      }),
      ground: true,
    } as Item,
  ];
  if (doubtful)
    items.push(mark("findings", [from[0] + (to[0] - from[0]) * 0.85, from[1] + (to[1] - from[1]) * 0.85], "warn", 5));
  return items;
}

/** The walk so far, the next direction, and the sides that would close it. */
export function drawWalk(
  points: readonly Pt[],
  names: readonly string[],
  closing: readonly Pt[],
  figures: readonly string[],
): Item[] {
  const items: Item[] = [polyline("outline", points, CHALK)];
  const last = points[points.length - 1]!;
  if (closing.length > 0) items.push(polyline("outline", [last, ...closing, points[0]!], DASHED));
  points.slice(1).forEach((to, i) => {
    const from = points[i]!;
    const figure = figures[i];
    if (!figure || distance(from, to) === 0) return;
    const turn = degreesOf(to[0] - from[0], to[1] - from[1]);
    const at: Pt = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
    items.push({
      ...text(at, figure, {
        layer: "dimensions",
        align: "centre",
        stand: "middle",
        turnDeg: turn > 90 && turn <= 270 ? turn - 180 : turn,
      }),
      ground: true,
    } as Item);
  });
  items.push(...drawCorners(names, points));
  return items;
}

/** The grid of levels: read points small, the next one as a ring to put the staff in. */
export function drawGrid(grid: readonly Pt[], next: Pt | null): Item[] {
  const items = grid.map((at) => mark("levels", at, "level", 1.2, 0, "grey"));
  if (next) items.push(mark("levels", next, "datum", 6, 0, "accent"));
  return items;
}

export function drawRing(points: readonly Pt[]): Item {
  return polygon("cutouts", points, CHALK);
}

export function drawEdge(from: Pt, to: Pt): Item {
  return line("straightedge", from, to, stroke("thick", "solid", "accent"));
}

/** Everything a layer of the plan is drawn with: left away while something else is measured over it. */
export const ALL_LAYERS: readonly Layer[] = [
  "outline",
  "walls",
  "field",
  "cutouts",
  "no-drill",
  "base-joints",
  "slab",
  "boards",
  "grain",
  "dimensions",
  "levels",
  "findings",
  "datum",
  "text",
];
