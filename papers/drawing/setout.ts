import { toMm } from "../../core/base/units.ts";
import { toSite } from "../../core/geometry/frame.ts";
import type { PlanRecord } from "../../core/plan/record.ts";
import { line, mark, polygon, stroke, text } from "../ink.ts";
import { rowNumber } from "../rowNumber.ts";
import type { Item, Pt } from "../sheet.ts";
import { drawBoards, drawRowNames } from "./boards.ts";
import {
  drawDiagonals,
  drawRowFigures,
  drawSideLengths,
  drawSquareCheck,
  type Ordinate,
  ordinatesMm,
} from "./dimensions.ts";
import { drawFindings, type Numbered } from "./findings.ts";
import { type Look, placeText, type Tongue } from "./look.ts";
import { drawSite, keepOffSides, nameCutouts, nameSides } from "./site.ts";

/** Outline, field, boards, rows with running dimensions at both ends, start line, diagonals, right-angle check. */
export function drawSetout(record: PlanRecord, tongue: Tongue, look: Look, findings: readonly Numbered[] = []): Item[] {
  const { setout } = record;
  const items: Item[] = [];
  for (const region of setout.field) {
    for (const ring of [region.outer, ...region.holes])
      items.push(
        polygon(
          "field",
          ring.map(([u, v]): Pt => toSite(setout.frame, u, v)),
          stroke("thin", "dash", "grey"),
        ),
      );
  }
  items.push(...drawBoards(record, look), ...drawSite(record, look));
  keepOffSides(record, look);
  items.push(...drawDatum(record, tongue, look));
  const pitchUm = setout.boardWidthUm + setout.sideGapUm;
  let clearMm = 0;
  for (const end of ["low", "high"] as const) {
    const rows = rowOrdinates(record, tongue, end);
    clearMm = Math.max(clearMm, ordinatesMm(rows));
    items.push(...drawRowFigures(record, look, rows, end, pitchUm));
  }
  items.push(...drawFindings(findings, look));
  items.push(...drawSideLengths(record, tongue, look, clearMm));
  const first = firstRow(record);
  if (first) {
    const reach = { uUm: first.u1Um - first.u0Um, vUm: greatestV(record) - first.vUm };
    items.push(...drawSquareCheck(record, tongue, look, { uUm: first.u0Um, vUm: first.vUm }, reach));
  }
  items.push(
    ...drawDiagonals(record, tongue, look),
    ...nameSides(record, tongue, look),
    ...nameCutouts(record, look),
    ...drawRowNames(record, look),
  );
  return items;
}

/** Start line: least v of row 0's pieces (of its strip, where it has none), and its extent along u. */
export function firstRow(record: PlanRecord): { row: number; u0Um: number; u1Um: number; vUm: number } | null {
  const pieces = record.bond.pieces.filter((piece) => piece.row === 0);
  if (pieces.length === 0) return null;
  return {
    row: 0,
    u0Um: pieces.reduce((least, piece) => Math.min(least, piece.u0Um), Infinity),
    u1Um: pieces.reduce((most, piece) => Math.max(most, piece.u1Um), -Infinity),
    vUm: pieces.reduce((least, piece) => Math.min(least, piece.v0Um), Infinity),
  };
}

function greatestV(record: PlanRecord): number {
  return record.bond.pieces.reduce((most, piece) => Math.max(most, piece.v1Um), -Infinity);
}

/** The start line as a chain line past both ends, a datum mark at each. */
export function drawDatum(record: PlanRecord, tongue: Tongue, look: Look): Item[] {
  const first = firstRow(record);
  if (!first) return [];
  const { frame } = record.setout;
  const beyond = 23_000 * look.scale;
  const [from, to] = [toSite(frame, first.u0Um - beyond, first.vUm), toSite(frame, first.u1Um + beyond, first.vUm)];
  const items: Item[] = [line("datum", from, to, stroke("medium", "chain", "accent"))];
  items.push(
    mark("datum", from, "datum", 2.6, frame.angleDeg, "accent"),
    mark("datum", to, "datum", 2.6, frame.angleDeg, "accent"),
  );
  for (const [at, align] of [
    [from, "left"],
    [to, "right"],
  ] as const) {
    const foot = toSite(frame, at === from ? first.u0Um - beyond : first.u1Um + beyond, first.vUm - 2_000 * look.scale);
    placeText(
      look,
      items,
      text(foot, tongue.labels.datum, {
        layer: "datum",
        tone: "accent",
        bold: true,
        align,
        stand: "top",
        turnDeg: frame.angleDeg,
      }),
    );
  }
  return items;
}

/** For each row: where its pieces end, its lower edge's distance from the start line, and its number. */
function rowOrdinates(record: PlanRecord, tongue: Tongue, end: "low" | "high"): Ordinate[] {
  const first = firstRow(record);
  const out: Ordinate[] = [];
  const ends = new Map<number, { uUm: number; v0Um: number }>();
  for (const piece of record.bond.pieces) {
    const known = ends.get(piece.row);
    const uUm =
      end === "low" ? Math.min(piece.u0Um, known?.uUm ?? Infinity) : Math.max(piece.u1Um, known?.uUm ?? -Infinity);
    ends.set(piece.row, { uUm, v0Um: Math.min(piece.v0Um, known?.v0Um ?? Infinity) });
  }
  for (const row of record.setout.rows) {
    const at = ends.get(row.row);
    if (!at || !first) continue;
    const figure = `${tongue.words.write.mm(toMm(at.v0Um - first.vUm))}`;
    const name = rowNumber(row.row);
    out.push({
      uUm: at.uUm,
      vUm: at.v0Um,
      figure: end === "low" ? `${name} \u2013 ${figure}` : `${figure} \u2013 ${name}`,
    });
  }
  return out;
}
