import { toMm } from "../../core/base/units.ts";
import { toSite } from "../../core/geometry/frame.ts";
import type { PlanRecord } from "../../core/plan/record.ts";
import type { Clip } from "../../core/stages/fixing/record.ts";
import { line, mark, polyline, stroke, text } from "../ink.ts";
import type { Item, Pt } from "../sheet.ts";
import { clipSizeMm, drawBoardsPale } from "./boards.ts";
import { drawRowFigures, drawSideLengths, type Ordinate, ordinatesMm } from "./dimensions.ts";
import { drawFindings, type Numbered } from "./findings.ts";
import { type Look, occupyLine, placeText, type Tongue } from "./look.ts";
import { drawDatum, firstRow } from "./setout.ts";
import { BAND_MM, drawSite, keepOffSides, nameCutouts, named, nameSides, ringItem } from "./site.ts";

/** Every clip and screw where it may be drilled, and every place where it may not. Positions only when drilling is released. */
export function drawFixing(record: PlanRecord, tongue: Tongue, look: Look, findings: readonly Numbered[] = []): Item[] {
  const { survey, setout, site } = record;
  const items: Item[] = [];
  if (survey.slab) items.push(ringItem("slab", survey.slab, "medium", "dash"));
  items.push(...drawBoardsPale(record));
  for (const area of survey.noDrill)
    items.push(ringItem("no-drill", area.ring, "medium", "solid", { hatchDeg: 60, spacingMm: 1.6, tone: "ink" }));
  for (const joint of survey.baseJoints) items.push(polyline("base-joints", joint, stroke("medium", "chain")));
  items.push(...drawSite(record, look));
  keepOffSides(record, look);
  items.push(...drawDatum(record, tongue, look));
  let clearMm = 0;
  if (site.drillingReleased) {
    items.push(...drawClips(record, look));
    for (const end of ["low", "high"] as const) {
      const lines = seamOrdinates(record, tongue, end);
      clearMm = Math.max(clearMm, ordinatesMm(lines));
      items.push(...drawRowFigures(record, look, lines, end, setout.boardWidthUm + setout.sideGapUm));
    }
    items.push(...drawClipRun(record, tongue, look, "first"), ...drawClipRun(record, tongue, look, "last"));
  }
  items.push(...drawFindings(findings, look));
  for (const area of survey.noDrill) {
    items.push(
      ...named(
        look,
        "no-drill",
        area.name,
        area.ring.map(([x, y]): Pt => [x, y]),
      ),
    );
  }
  items.push(
    ...drawSideLengths(record, tongue, look, clearMm),
    ...nameSides(record, tongue, look),
    ...nameCutouts(record, look),
  );
  return items;
}

const SYMBOL = { start: "clip-start", seam: "clip-seam", last: "clip-last", end: "clip-end" } as const;

function drawClips(record: PlanRecord, look: Look): Item[] {
  const { frame } = record.setout;
  const size = clipSizeMm(record, look.scale);
  const clips = record.fixing.clips.map((clip) =>
    mark("clips", toSite(frame, clip.uUm, clip.vUm), SYMBOL[clip.kind], size, frame.angleDeg),
  );
  const screws = record.fixing.screws.map((screw) =>
    mark("screws", toSite(frame, screw.uUm, screw.vUm), "screw", size, frame.angleDeg),
  );
  return [...clips, ...screws];
}

/** Clips of each seam in order of u, end clips left out. */
function seams(record: PlanRecord): Map<number, Clip[]> {
  const out = new Map<number, Clip[]>();
  for (const clip of record.fixing.clips) {
    if (clip.kind === "end") continue;
    const list = out.get(clip.seam);
    if (list) list.push(clip);
    else out.set(clip.seam, [clip]);
  }
  for (const list of out.values()) list.sort((a, b) => a.uUm - b.uUm);
  return new Map([...out].sort((a, b) => a[0] - b[0]));
}

/** Distance of each clip line from the start line, at both ends of the rows. */
function seamOrdinates(record: PlanRecord, tongue: Tongue, end: "low" | "high"): Ordinate[] {
  const first = firstRow(record);
  if (!first) return [];
  const out: Ordinate[] = [];
  for (const [seam, clips] of seams(record)) {
    const rows = record.bond.pieces.filter((piece) => piece.row === seam || piece.row === seam - 1);
    const uUm = rows.reduce(
      (far, piece) => (end === "low" ? Math.min(far, piece.u0Um) : Math.max(far, piece.u1Um)),
      end === "low" ? clips[0]!.uUm : clips[clips.length - 1]!.uUm,
    );
    out.push({ uUm, vUm: clips[0]!.vUm, figure: tongue.words.write.mm(toMm(clips[0]!.vUm - first.vUm)) });
  }
  return out;
}

/** Running distances of the clips of the first or last seam from the end of the rows, figures standing on stubs outside. */
function drawClipRun(record: PlanRecord, tongue: Tongue, look: Look, which: "first" | "last"): Item[] {
  const all = [...seams(record).values()];
  const clips = which === "first" ? all[0] : all.length > 1 ? all[all.length - 1] : undefined;
  const first = firstRow(record);
  if (!clips || !first) return [];
  const { frame } = record.setout;
  const sign = which === "first" ? -1 : 1;
  const items: Item[] = [];
  for (const clip of clips) {
    const at = toSite(frame, clip.uUm, clip.vUm);
    const stub = toSite(frame, clip.uUm, clip.vUm + sign * (BAND_MM + 2) * look.scale * 1000);
    const foot = toSite(frame, clip.uUm, clip.vUm + sign * (BAND_MM + 2.6) * look.scale * 1000);
    const item = text(foot, tongue.words.write.mm(toMm(clip.uUm - first.u0Um)), {
      layer: "dimensions",
      align: which === "first" ? "right" : "left",
      stand: "middle",
      turnDeg: frame.angleDeg + 90,
    });
    if (!placeText(look, items, item)) continue;
    items.push(line("dimensions", at, stub));
    occupyLine(look, at, stub);
  }
  return items;
}
