import type { Finding } from "../core/base/finding.ts";
import { toMm } from "../core/base/units.ts";
import type { PlanRecord } from "../core/plan/record.ts";
import type { DrawingLabels } from "../words/drawing.ts";
import type { Words } from "../words/words.ts";
import { compose } from "./compose.ts";
import { drawFixing } from "./drawing/fixing.ts";
import type { Tongue } from "./drawing/look.ts";
import { stroke } from "./ink.ts";
import { numberedFindings, type Sign } from "./margin.ts";
import type { Paper } from "./sheet.ts";
import { fillSign, lineSign, markSign } from "./signs.ts";

/** Every clip and screw, and where none may be drilled. `proof` is the checker's first line, null where nothing has been proved yet. */
export function fixingPaper(record: PlanRecord, words: Words, labels: DrawingLabels, proof: string | null): Paper {
  const tongue: Tongue = { words, labels };
  const mine = new Set<Finding>([
    ...record.fixing.findings,
    ...record.site.findings,
    ...record.surface.findings.filter((finding) => finding.level === "stop"),
  ]);
  const findings = numberedFindings(record, (finding) => mine.has(finding));
  const { counts, screws } = record.fixing;
  const found = { ...counts, screw: screws.length };
  const kinds = (["start", "seam", "last", "end", "screw"] as const).filter((kind) => found[kind] > 0);
  const facts = kinds.map((kind) => labels.fixing.count[kind](words.write.mm(found[kind])));
  return compose(record, tongue, {
    kind: "fixing",
    name: "fixing",
    pictures: [{ name: null, draw: (look) => drawFixing(record, tongue, look, findings.shown) }],
    signs: () => fixingSigns(record, labels),
    findings,
    facts: [facts.join(", ")],
    detailMm: record.site.drillingReleased ? toMm(record.setout.boardWidthUm) : null,
    remark: record.site.drillingReleased ? null : labels.fixing.leftOff,
    proof,
  });
}

function fixingSigns(record: PlanRecord, labels: DrawingLabels): Sign[][] {
  const { fixing } = labels;
  const signs: Sign[] = [];
  if (record.site.drillingReleased) {
    for (const kind of ["start", "seam", "last", "end"] as const)
      signs.push(markSign(fixing.clip[kind], `clip-${kind}`, 2.4));
    if (record.fixing.screws.length > 0) signs.push(markSign(fixing.screw, "screw", 2.4));
  }
  const places = [
    fillSign(fixing.noDrill, [{ hatchDeg: 60, spacingMm: 1.6, tone: "ink" }], stroke("medium")),
    lineSign(fixing.slab, "medium", "dash"),
    lineSign(fixing.baseJoint, "medium", "chain"),
    lineSign(labels.setout.startLine, "medium", "chain", "accent"),
  ];
  return signs.length > 0 ? [signs, places] : [places];
}
