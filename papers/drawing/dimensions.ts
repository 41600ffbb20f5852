import { toMm } from "../../core/base/units.ts";
import { degreesOf } from "../../core/geometry/direction.ts";
import { toSite } from "../../core/geometry/frame.ts";
import type { PlanRecord } from "../../core/plan/record.ts";
import { line, stroke, THIN, text } from "../ink.ts";
import type { Item, Pt } from "../sheet.ts";
import { textWidthMm } from "../text.ts";
import {
  freePlaces,
  type Look,
  lineBoxes,
  occupy,
  occupyLine,
  placeText,
  type Tongue,
  takePlaces,
  textBoxes,
} from "./look.ts";
import { between, crosses, distance, edgePoints, inside, moved, ringPoints, unit } from "./plane.ts";
import { BAND_MM, outward } from "./site.ts";

/** Each side's length outside it, `clearMm` of paper further out where rows end and their figures stand. Arcs give their radius. */
export function drawSideLengths(record: PlanRecord, tongue: Tongue, look: Look, clearMm: number): Item[] {
  const items: Item[] = [];
  const { outline } = record.survey;
  const { frame } = record.setout;
  outline.forEach((vertex, i) => {
    const points = edgePoints(outline, i, 0.05 * look.scale);
    const [from, to] = [points[0]!, points[points.length - 1]!];
    const along = unit(from, to);
    const endOfRows = Math.abs(along[0] * frame.cos + along[1] * frame.sin) < 0.95;
    const length = distance(from, to);
    const words =
      vertex[2] === 0 ? tongue.words.write.mm(length) : `R ${tongue.words.write.mm(arcRadius(length, vertex[2]))}`;
    if (length / look.scale < textWidthMm(words, 2.5) * 0.8) return;
    const first =
      BAND_MM + 4.6 + (endOfRows && clearMm > 0 ? clearMm + 1.5 : 0) + sagOf(vertex[2], length) / look.scale;
    for (const out of [first, first + 5, first + 10, first + 15, first + 20]) {
      if (sideLength(look, items, from, to, outward(points), out, words)) break;
    }
  });
  return items;
}

/** How far an arc swells beyond its chord, outward. */
function sagOf(bulge: number, chord: number): number {
  return bulge > 0 ? (bulge * chord) / 2 : 0;
}

/** One dimension line with its figure, if both have room. Outside lies to the right of the edge, so the figure stands on the side of the site. */
function sideLength(look: Look, items: Item[], from: Pt, to: Pt, away: Pt, outMm: number, words: string): boolean {
  const along = unit(from, to);
  const [a, b] = [moved(from, away, outMm * look.scale), moved(to, away, outMm * look.scale)];
  const figure = text(moved(between(a, b, 0.5), away, -0.8 * look.scale), words, {
    layer: "dimensions",
    align: "centre",
    turnDeg: degreesOf(along[0], along[1]),
  });
  const inset = Math.min(1.2 * look.scale, distance(a, b) / 4);
  const run = lineBoxes(look, moved(a, along, inset), moved(b, along, -inset), 0.4);
  if (figure.kind !== "text" || !freePlaces(look.room, run, true) || !takePlaces(look.room, textBoxes(look, figure)))
    return false;
  for (const box of run) occupy(look.room, { ...box, soft: true });
  items.push(figure, line("dimensions", a, b, THIN));
  for (const [foot, end] of [
    [from, a],
    [to, b],
  ] as const) {
    items.push(
      line("dimensions", moved(foot, away, (BAND_MM + 1) * look.scale), moved(end, away, 1.2 * look.scale), THIN),
    );
    const slant: Pt = [along[0] - away[0], along[1] - away[1]];
    items.push(line("dimensions", moved(end, slant, -0.8 * look.scale), moved(end, slant, 0.8 * look.scale), THIN));
    occupyLine(look, moved(foot, away, (BAND_MM + 1) * look.scale), end, 0.2, true);
  }
  return true;
}

function arcRadius(chord: number, bulge: number): number {
  const b = Math.abs(bulge);
  return (chord * (1 + b * b)) / (4 * b);
}

export interface Ordinate {
  /** Where the line stands: u of the row's end and v of the line, micrometres. */
  uUm: number;
  vUm: number;
  figure: string;
}

/** Lengths of the stub between a row's end and its figure, paper mm: the first that leaves room. */
const STUBS_MM = [BAND_MM + 1.2, BAND_MM + 2.6, BAND_MM + 4.4, BAND_MM + 6.5, BAND_MM + 9, BAND_MM + 12];

/**
 * Running figures at the ends of rows: a stub outward from each end, the figure on it. Every row where their pitch is
 * 3.4 mm on paper, else every second, fifth, tenth and so on.
 */
export function drawRowFigures(
  record: PlanRecord,
  look: Look,
  lines: readonly Ordinate[],
  end: "low" | "high",
  pitchUm: number,
): Item[] {
  const { frame } = record.setout;
  const items: Item[] = [];
  const least = (3.4 * look.scale) / toMm(pitchUm);
  const step = [1, 2, 5, 10, 20, 50, 100, 200, 500].find((step) => step >= least) ?? 1000;
  const sign = end === "low" ? -1 : 1;
  for (let i = 0; i < lines.length; i += step) {
    const { uUm, vUm, figure } = lines[i]!;
    for (const [stubMm, overSoft] of [...STUBS_MM.map((mm) => [mm, false] as const), [STUBS_MM[0]!, true] as const]) {
      const stubUm = stubMm * look.scale * 1000;
      const at = toSite(frame, uUm + sign * (stubUm + 500 * look.scale), vUm);
      const item = text(at, figure, {
        layer: "dimensions",
        align: end === "low" ? "right" : "left",
        stand: "middle",
        turnDeg: frame.angleDeg,
      });
      if (item.kind !== "text" || !placeText(look, items, { ...item, ground: true }, overSoft)) continue;
      items.push(line("dimensions", toSite(frame, uUm, vUm), toSite(frame, uUm + sign * stubUm, vUm)));
      break;
    }
  }
  return items;
}

/** Paper width of the longest of these figures with its stub. */
export function ordinatesMm(lines: readonly Ordinate[]): number {
  return lines.reduce((most, one) => Math.max(most, textWidthMm(one.figure, 2.5)), 0) + STUBS_MM[0]! - BAND_MM + 0.5;
}

/** The two longest diagonals that a tape can be laid along, about square to one another. */
export function drawDiagonals(record: PlanRecord, tongue: Tongue, look: Look): Item[] {
  const items: Item[] = [];
  const ring = ringPoints(record.survey.outline);
  const corners = record.survey.outline.map(([x, y]): Pt => [x, y]);
  for (const [a, b] of diagonals(
    corners.length > 80 ? corners.filter((_, i) => i % Math.ceil(corners.length / 80) === 0) : corners,
    ring,
  )) {
    items.push(line("dimensions", a, b, stroke("thin", "chain", "grey")));
    const turnDeg = degreesOf(b[0] - a[0], b[1] - a[1]);
    for (const share of [0.3, 0.7, 0.2, 0.8, 0.4, 0.6]) {
      const figure = text(between(a, b, share), tongue.words.write.mm(distance(a, b)), {
        layer: "dimensions",
        align: "centre",
        stand: "middle",
        turnDeg,
      });
      if (figure.kind === "text" && placeText(look, items, { ...figure, ground: true })) break;
    }
  }
  return items;
}

function diagonals(corners: readonly Pt[], ring: readonly Pt[]): [Pt, Pt][] {
  const pairs: { a: Pt; b: Pt; length: number; along: Pt }[] = [];
  for (let i = 0; i < corners.length; i++) {
    for (let j = i + 2; j < corners.length; j++) {
      if (i === 0 && j === corners.length - 1) continue;
      const [a, b] = [corners[i]!, corners[j]!];
      if (crosses(ring, a, b) || ![0.25, 0.5, 0.75].every((share) => inside(ring, between(a, b, share)))) continue;
      pairs.push({ a, b, length: distance(a, b), along: unit(a, b) });
    }
  }
  pairs.sort((p, q) => q.length - p.length);
  const first = pairs[0];
  if (!first) return [];
  const second = pairs.find((pair) => {
    const dot = pair.along[0] * first.along[0] + pair.along[1] * first.along[1];
    return dot * dot < 0.75 && pair.length > 0.4 * first.length;
  });
  return second
    ? [
        [first.a, first.b],
        [second.a, second.b],
      ]
    : [[first.a, first.b]];
}

/** A right angle to tape at the datum: 3, 4 and 5 times the greatest round length that fits in the first rows' field. */
export function drawSquareCheck(
  record: PlanRecord,
  tongue: Tongue,
  look: Look,
  at: { uUm: number; vUm: number },
  reach: { uUm: number; vUm: number },
): Item[] {
  const { frame } = record.setout;
  const ring = ringPoints(record.survey.outline);
  const corner = toSite(frame, at.uUm, at.vUm);
  const legs = (mm: number): [Pt, Pt] => [
    toSite(frame, at.uUm + mm * 4000, at.vUm),
    toSite(frame, at.uUm, at.vUm + mm * 3000),
  ];
  const unitMm = UNITS_MM.find((mm) => {
    if (mm * 4000 > reach.uUm || mm * 3000 > reach.vUm) return false;
    const [along, across] = legs(mm);
    return !crosses(ring, along, across) && inside(ring, between(along, across, 0.5));
  });
  if (unitMm === undefined || unitMm / look.scale < 4) return [];
  const [along, across] = legs(unitMm);
  const pen = stroke("thin", "dash", "accent");
  const items: Item[] = [
    line("datum", corner, across, pen),
    line("datum", along, across, pen),
    line("datum", corner, along, pen),
  ];
  const say = (a: Pt, b: Pt, mm: number) => {
    const figure = text(between(a, b, 0.55), tongue.words.write.mm(mm), {
      layer: "datum",
      align: "centre",
      stand: "middle",
      tone: "accent",
      turnDeg: degreesOf(b[0] - a[0], b[1] - a[1]),
    });
    if (figure.kind === "text") placeText(look, items, { ...figure, ground: true });
  };
  say(along, across, unitMm * 5);
  say(corner, across, unitMm * 3);
  say(corner, along, unitMm * 4);
  return items;
}

/** A right angle's unit, mm: legs of three and four, a long side of five. */
const UNITS_MM = [2000, 1500, 1000, 800, 600, 500, 400, 300, 200, 100];
