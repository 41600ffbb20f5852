import type { Finding } from "../core/base/finding.ts";
import { toMm } from "../core/base/units.ts";
import type { PlanRecord } from "../core/plan/record.ts";
import type { DrawingLabels } from "../words/drawing.ts";
import type { Words } from "../words/words.ts";
import { compose } from "./compose.ts";
import type { Tongue } from "./drawing/look.ts";
import { drawSetout } from "./drawing/setout.ts";
import { box, line, stroke, text } from "./ink.ts";
import { numberedFindings, type Sign } from "./margin.ts";
import type { Item, Paper } from "./sheet.ts";
import { bandSign, KERB, lineSign, markSign, sample, WALL } from "./signs.ts";

/** Where every board lies, and the measures to set it out by. `proof` is the checker's first line, null where nothing has been proved yet. */
export function setoutPaper(record: PlanRecord, words: Words, labels: DrawingLabels, proof: string | null): Paper {
  const tongue: Tongue = { words, labels };
  const mine = new Set<Finding>([
    ...record.survey.findings,
    ...record.setout.findings,
    ...record.bond.findings,
    ...record.cutting.findings,
    ...record.laying.findings,
  ]);
  const findings = numberedFindings(record, (finding) => mine.has(finding));
  const { write } = words;
  return compose(record, tongue, {
    kind: "setout",
    name: "setout",
    pictures: [{ name: null, draw: (look) => drawSetout(record, tongue, look, findings.shown) }],
    signs: () => setoutSigns(labels),
    findings,
    facts: [
      labels.setout.rows(write.mm(record.setout.rows.length), write.mm1(toMm(record.setout.sideGapUm))),
      labels.setout.boards(write.mm(record.cutting.boards.length), write.mm(record.bond.pieces.length)),
      labels.setout.area(write.m2(record.setout.fieldAreaUm2 / 1e6)),
    ],
    detailMm: toMm(record.setout.boardWidthUm),
    remark: null,
    proof,
  });
}

function setoutSigns(labels: DrawingLabels): Sign[][] {
  const { setout } = labels;
  const board = (x: number, y: number): Item[] => [
    box("text", x - 5, y - 1.5, 10, 3, stroke("thin")),
    line("text", [x - 3, y + 0.5], [x + 1, y + 0.5], stroke("thin", "solid", "grey")),
    line("text", [x - 1, y - 0.6], [x + 3, y - 0.6], stroke("thin", "solid", "grey")),
  ];
  const lines: Sign[] = [
    bandSign(setout.wall, WALL),
    bandSign(setout.kerb, KERB),
    lineSign(setout.field, "thin", "dash", "grey"),
    lineSign(setout.startLine, "medium", "chain", "accent"),
    lineSign(setout.square, "thin", "dash", "accent"),
    lineSign(labels.diagonal, "thin", "chain", "grey"),
  ];
  const boards: Sign[] = [
    sample(setout.board, board),
    sample(setout.cutEnd, (x, y) => [
      box("text", x - 5, y - 1.5, 10, 3, stroke("thin")),
      line("text", [x + 5.2, y], [x + 3, y]),
    ]),
    sample(setout.rippedEdge, (x, y) => [
      box("text", x - 5, y - 1.5, 10, 3, stroke("thin")),
      line("text", [x - 0.35, y + 1.7], [x - 0.35, y - 0.1]),
      line("text", [x + 0.35, y + 1.7], [x + 0.35, y - 0.1]),
    ]),
    sample(setout.rowFigure, (x, y) => [text([x, y], "7 \u2013 900", { align: "centre", stand: "middle" })]),
    markSign(labels.datum, "datum", 2.6, "accent"),
  ];
  return [lines, boards];
}
