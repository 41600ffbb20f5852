import type { Finding } from "../core/base/finding.ts";
import type { PlanRecord } from "../core/plan/record.ts";
import type { DrawingLabels } from "../words/drawing.ts";
import type { Words } from "../words/words.ts";
import { compose } from "./compose.ts";
import { arrow, drawBase, drawDeviations, FALL_MM } from "./drawing/base.ts";
import { contourStepMm } from "./drawing/contours.ts";
import { deviationClasses, failHatch } from "./drawing/deviation.ts";
import type { Tongue } from "./drawing/look.ts";
import type { Picture } from "./layout.ts";
import { numberedFindings, type Sign } from "./margin.ts";
import type { Paper } from "./sheet.ts";
import { bandSign, fillSign, KERB, lineSign, markSign, sample, WALL } from "./signs.ts";

/**
 * The base as it was found: levels, contours, fall, puddles, the worst straightedge; deviation from its plane and
 * what to do at each reading. `proof` is the checker's first line, null where nothing has been proved yet.
 */
export function basePaper(record: PlanRecord, words: Words, labels: DrawingLabels, proof: string | null): Paper {
  const tongue: Tongue = { words, labels };
  const { surface } = record.surface;
  const mine = new Set<Finding>([
    ...record.survey.findings,
    ...record.surface.findings,
    ...record.preparation.findings,
    ...record.site.findings,
  ]);
  const findings = numberedFindings(record, (finding) => mine.has(finding));
  const levels: Picture = {
    name: surface ? labels.view.levels : null,
    draw: (look) => drawBase(record, tongue, look, findings.shown),
  };
  const deviation: Picture = { name: labels.view.deviation, draw: (look) => drawDeviations(record, tongue, look) };
  return compose(record, tongue, {
    kind: "base",
    name: "base",
    pictures: surface ? [levels, deviation] : [levels],
    signs: (scale) => baseSigns(record, tongue, scale),
    findings,
    facts: facts(record, tongue),
    detailMm: null,
    remark: surface ? null : labels.noLevels,
    proof,
  });
}

function facts(record: PlanRecord, { words, labels }: Tongue): string[] {
  const { surface } = record.surface;
  if (!surface) return [];
  const { write } = words;
  const several = surface.facets.length > 1;
  const planes = several ? surface.facets.map((facet) => facet.plane) : [surface.plane];
  const half = several ? Math.max(...surface.facets.map((facet) => facet.halfWidthMm)) : surface.zone.halfWidthMm;
  return [
    labels.base.verdict[surface.verdict],
    ...planes.map(({ fall, towards }) =>
      labels.base.plane(write.percent(fall), labels.base.compass[Math.round(towards / 45) % 8]!),
    ),
    labels.base.zone(write.mm1(half), write.mm(record.job.base.limits.deviation)),
  ];
}

function baseSigns(record: PlanRecord, { words, labels }: Tongue, scale: number): Sign[][] {
  const { surface } = record.surface;
  if (!surface) return [[bandSign(labels.setout.wall, WALL)], [bandSign(labels.setout.kerb, KERB)]];
  const { write } = words;
  const limit = record.job.base.limits.deviation;
  const signs: Sign[] = [
    markSign(labels.base.level, "level", 1.8),
    lineSign(labels.base.contour(write.mm(contourStepMm(surface, scale))), "thin", "solid", "accent"),
    sample(labels.base.fall(write.percent(2)), (x, y) => arrow({ scale: 1 }, [x - FALL_MM, y], [1, 0], 2 * FALL_MM)),
  ];
  if (surface.straightedge) signs.push(lineSign(labels.base.straightedge, "thick"));
  if (surface.puddles.length > 0)
    signs.push(fillSign(labels.base.puddle, [{ hatchDeg: 0, spacingMm: 1.2, tone: "accent" }]));
  const bands: Sign[] = [];
  for (const band of deviationClasses(limit)) {
    const text =
      band.fails === "above"
        ? labels.base.overLimit(write.mm(limit))
        : band.fails === "below"
          ? labels.base.underLimit(write.mm(limit))
          : `${write.number(band.from!, limit % 2 === 0 ? 0 : 1)} ${labels.base.to} ${write.number(band.to!, limit % 2 === 0 ? 0 : 1)}`;
    bands.push(
      fillSign(text, band.fails ? [{ colour: band.colour }, failHatch(band.fails)] : [{ colour: band.colour }]),
    );
  }
  bands.reverse();
  signs.push(markSign(labels.base.deviationFigure, "level", 1.2));
  return [signs, bands];
}
