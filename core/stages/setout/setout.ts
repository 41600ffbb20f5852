import { TOLERANCE } from "../../base/tolerances.ts";
import { toMm, toUm } from "../../base/units.ts";
import { type Frame, frameAt, type Region, toFrame, toSite } from "../../geometry/frame.ts";
import { boxOf, moveRing } from "../../geometry/ring.ts";
import { clipStrips, type Strip } from "../../geometry/strips.ts";
import type { Job } from "../../job/job.ts";
import type { SurfaceStage } from "../surface/record.ts";
import type { SurveyRecord } from "../survey/record.ts";
import { chooseAngle } from "./angle.ts";
import { askewRows } from "./askew.ts";
import { bareEdges, outsideRows, thinFindings } from "./bare.ts";
import type { BareFinding } from "./cover.ts";
import { evenOut } from "./even.ts";
import { type Field, fieldOf } from "./field.ts";
import { levelsOf } from "./levels.ts";
import type { Row, SetoutRecord, Span } from "./record.ts";
import { chooseRows } from "./rows.ts";
import { spansOf } from "./spans.ts";
import { moveSite, turnSite } from "./turn.ts";
import type { Grown } from "./webs.ts";

/**
 * The set-out: direction, start line, row gap, and for every row the unbroken parts of field and strip.
 * Everything is reckoned in whole micrometres along and across the rows; the site is turned into them once.
 * Cost: edges log edges for the field (general clipper, once), then edges + crossings + rows.
 */
export function setOut(job: Job, survey: SurveyRecord, surface: SurfaceStage): SetoutRecord {
  const angle = chooseAngle(job, survey, surface);
  const [x0, y0] = survey.outline[0]!;
  const frame = frameAt(x0, y0, angle.deg);
  const turned = turnSite(survey, frame);
  const field = fieldOf(turned);
  const width = toUm(job.board.width);
  const range = extent(field.parts);
  if (range === null) return emptySetout(job, frame, turned.site, field, angle.reason, survey.areaMm2);

  const levels = levelsOf(field.parts, turned);
  const at = job.bond.startAt ?? null;
  const choice = chooseRows(levels, range.v0, range.v1, job, at && toFrame(frame, at[0], at[1])[1]);
  const strips = stripsFrom(choice.startUm, width, choice.sideGapUm, range.v1);
  const found: BareFinding[] = [];
  const grown = grownOf(field, turned.site.cutouts);
  const clipped = clipStrips(flush(field.parts, strips), strips);
  const ctx = { job, sideGapUm: choice.sideGapUm, grown, keepClear: turned.site.keepClear, findings: found };
  const bySpan = strips.map(([low, high], k) =>
    spansOf(
      k,
      low,
      high,
      clipped[k]!,
      grown.length === 0 ? ctx : { ...ctx, grown: grown.filter((g) => g.box.v0 < high && g.box.v1 > low) },
    ),
  );
  found.push(...bareEdges(field.parts, choice, job));

  // Row 0 is the first row with a board in it; the frame's v = 0 is the lower edge of its pieces.
  const firstRow = bySpan.findIndex((spans) => spans.length > 0);
  if (firstRow < 0) return emptySetout(job, frame, turned.site, field, angle.reason, survey.areaMm2);
  let lastRow = bySpan.length - 1;
  while (bySpan[lastRow]!.length === 0) lastRow--;
  found.push(...outsideRows(field.parts, strips, firstRow, lastRow, range, found));
  const startLine = Math.min(...bySpan[firstRow]!.map((s) => s.v0Um));
  const [originX, originY] = toSite(frame, range.u0, startLine);
  const placed = frameAt(originX, originY, angle.deg);
  const du = -range.u0;
  const dv = -startLine;
  const rows: Row[] = [];
  const spans: Span[] = [];
  for (let k = firstRow; k <= lastRow; k++) {
    const indices: number[] = [];
    for (const span of bySpan[k]!) {
      indices.push(spans.length);
      spans.push(moveSpan(span, k - firstRow, du, dv));
    }
    rows.push({ row: k - firstRow, v0Um: strips[k]![0] + dv, v1Um: strips[k]![1] + dv, spans: indices });
  }
  evenOut(spans, job);
  const askew = askewRows(survey, angle.deg);
  return {
    frame: placed,
    site: moveSite(turned.site, du, dv),
    field: field.parts.map((part) => moveRegion(part, du, dv)),
    fieldAreaUm2: field.areaUm2,
    boardWidthUm: width,
    sideGapUm: choice.sideGapUm,
    rows,
    spans,
    reasons: [angle.reason, choice.reason],
    findings: [
      ...found.map(({ uv, ...finding }) => {
        const data = finding.data as { row?: number };
        return {
          ...finding,
          data: data.row === undefined ? data : { ...data, row: data.row - firstRow },
          at: toSite(placed, uv[0] + du, uv[1] + dv),
        };
      }),
      ...(askew === null ? [] : [askew]),
    ],
  };
}

/** Every strip from the start up to the field's highest point. */
function stripsFrom(startUm: number, width: number, gap: number, highUm: number): Strip[] {
  const out: Strip[] = [];
  for (let v = startUm; v < highUm; v += width + gap) out.push([v, v + width]);
  return out;
}

/**
 * The field with edges that lie less than a gap's tolerance inside a strip's edge moved onto it: there the board keeps its
 * full width and the gap is that much smaller. Only edges along the rows are moved.
 */
function flush(parts: readonly Region[], strips: readonly Strip[]): Region[] {
  const under = toUm(TOLERANCE.gapUnderMm);
  const first = strips[0]!;
  const pitch = strips.length > 1 ? strips[1]![0] - first[0] : first[1] - first[0] + 1;
  const width = first[1] - first[0];
  const onLine = (v: number): number => {
    const row = Math.floor((v - first[0]) / pitch);
    const t = v - first[0] - row * pitch;
    if (t <= under) return v - t;
    if (t >= width - under && t <= width) return v - t + width;
    return v;
  };
  const fix = (ring: Region["outer"]): Region["outer"] => {
    let out: [number, number][] | null = null;
    for (let i = 0; i < ring.length; i++) {
      const k = (i + 1) % ring.length;
      const a = ring[i]!;
      const b = ring[k]!;
      if (Math.abs(b[1] - a[1]) > under || Math.abs(b[0] - a[0]) < 4 * under) continue;
      const va = onLine(a[1]);
      const vb = onLine(b[1]);
      if (va !== vb || (va === a[1] && vb === b[1])) continue;
      out ??= ring.map(([u, v]) => [u, v]);
      out[i]![1] = va;
      out[k]![1] = vb;
    }
    return out ?? ring;
  };
  return parts.map((part) => ({ outer: fix(part.outer), holes: part.holes.map(fix) }));
}

function grownOf(field: Field, cutouts: SetoutRecord["site"]["cutouts"]): Grown[] {
  return field.grown.flatMap(({ cutout, rings }) =>
    rings.map((ring) => ({
      index: cutout,
      name: cutouts[cutout]!.name,
      height: cutouts[cutout]!.height,
      ring,
      box: boxOf(ring),
    })),
  );
}

function extent(parts: readonly Region[]): { u0: number; v0: number; v1: number } | null {
  if (parts.length === 0) return null;
  const boxes = parts.map((p) => boxOf(p.outer));
  return {
    u0: Math.min(...boxes.map((b) => b.u0)),
    v0: Math.min(...boxes.map((b) => b.v0)),
    v1: Math.max(...boxes.map((b) => b.v1)),
  };
}

function moveRegion(region: Region, du: number, dv: number): Region {
  return { outer: moveRing(region.outer, du, dv), holes: region.holes.map((h) => moveRing(h, du, dv)) };
}

function moveSpan(span: Span, row: number, du: number, dv: number): Span {
  const { cutFrom } = span;
  return {
    ...(cutFrom === undefined ? {} : { cutFrom: { u0Um: cutFrom.u0Um + du, u1Um: cutFrom.u1Um + du } }),
    row,
    region: moveRegion(span.region, du, dv),
    u0Um: span.u0Um + du,
    u1Um: span.u1Um + du,
    v0Um: span.v0Um + dv,
    v1Um: span.v1Um + dv,
    plain: span.plain,
    mustJoint: span.mustJoint.map((m) => ({ ...m, from: m.from + du, to: m.to + du })),
    noJoint: span.noJoint.map((m) => ({ from: m.from + du, to: m.to + du })),
  };
}

/** A set-out without a row. What field there is stays in the record, and all of it is named as bare. */
function emptySetout(
  job: Job,
  frame: Frame,
  site: SetoutRecord["site"],
  field: Field,
  reason: SetoutRecord["reasons"][number],
  areaMm2: number,
): SetoutRecord {
  const bare = thinFindings(field.parts);
  return {
    frame,
    site,
    field: field.parts,
    fieldAreaUm2: field.areaUm2,
    boardWidthUm: toUm(job.board.width),
    sideGapUm: toUm(job.gaps.side),
    rows: [],
    spans: [],
    reasons: [reason],
    findings: [
      {
        code: "fieldEmpty",
        rule: "cover",
        level: "stop",
        at: [frame.originXMm, frame.originYMm],
        found: 0,
        limit: toMm(toUm(job.board.width)),
        releasedBy: null,
        data: { areaMm2 },
      },
      ...bare.map(({ uv, ...finding }) => ({ ...finding, at: toSite(frame, uv[0], uv[1]) })),
    ],
  };
}
