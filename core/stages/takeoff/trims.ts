import type { FindingsOf } from "../../base/finding.ts";
import { roundMm } from "../../base/units.ts";
import { degreesOf, directionOf } from "../../geometry/direction.ts";
import type { Job, Xy } from "../../job/job.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { TakeoffFindings } from "./findings.ts";
import type { TakeoffRecord, TrimPart } from "./record.ts";

/** A closing part shorter than this is shared with its neighbour, mm (common practice, no source). */
const LEAST_PART_MM = 300;
/** Steeper than this off square a usual saw does not cut, degrees (common practice, no source). */
const STEEPEST_MITRE_DEG = 60;

export interface Trimming {
  trims: TakeoffRecord["trims"];
  /** Stock lengths needed, and screws through the trim. */
  bars: number;
  screws: number;
  findings: FindingsOf<TakeoffFindings>[];
}

/**
 * A trim along every open side: outer lengths along the outline, mitred where two open sides meet, butt elsewhere and
 * there shorter by the neighbour's gap (unless nothing would be left). A side longer than the stock is made of whole lengths and a rest; a rest under
 * 300 mm is shared with the length before it. Parts come out of stock lengths by best fit, a kerf apart. A curved side
 * is measured along its arc. Screws: one at most every `screwSpacing`, two at least a part.
 * Cost: parts x stock lengths.
 */
export function layTrims(job: Job, survey: SurveyRecord): Trimming {
  const out: Trimming = { trims: [], bars: 0, screws: 0, findings: [] };
  const count = survey.sides.length;
  for (let i = 0; i < count; i++) {
    const side = survey.sides[i]!;
    if (side.kind !== "open") continue;
    const run = runOf(survey, i);
    if (run.lengthMm <= 0) continue;
    if (run.bulge !== 0 && job.trim)
      out.findings.push(note("trimCurved", run.middle, { side: side.source, lengthMm: run.lengthMm }));
    if (!job.trim) {
      out.findings.push(note("trimMissing", run.middle, { side: side.source, lengthMm: run.lengthMm }));
      continue;
    }
    const corner = cornerDeg(survey, (i + 1) % count);
    if (survey.sides[(i + 1) % count]!.kind === "open" && 90 - corner / 2 > STEEPEST_MITRE_DEG) {
      const [x, y] = survey.outline[(i + 1) % count]!;
      out.findings.push(note("trimMitre", [x, y], { side: side.source, cornerDeg: corner }));
    }
    const parts = partsOf(run, job.trim.length);
    out.trims.push({ side: side.source, parts });
    for (const part of parts) out.screws += Math.max(2, Math.ceil(part.length / job.trim.screwSpacing - 1e-9) + 1);
  }
  const lengths = out.trims.flatMap((trim) => trim.parts.map((part) => part.length));
  if (job.trim) out.bars = barsFor(lengths, job.trim.length, job.cut.kerf);
  return out;
}

interface Run {
  from: Xy;
  to: Xy;
  bulge: number;
  lengthMm: number;
  middle: [number, number];
  mitres: [number, number];
  /** The point at a distance along the run. */
  at: (along: number) => [number, number];
}

/** The trim's line along side i, shortened at ends that butt against another kind of side. */
function runOf(survey: SurveyRecord, i: number): Run {
  const count = survey.sides.length;
  const [x0, y0, bulge] = survey.outline[i]!;
  const [x1, y1] = survey.outline[(i + 1) % count]!;
  const before = survey.sides[(i + count - 1) % count]!;
  const after = survey.sides[(i + 1) % count]!;
  const whole = sideLength(x0, y0, x1, y1, bulge);
  const short = (before.kind === "open" ? 0 : before.gapMm) + (after.kind === "open" ? 0 : after.gapMm);
  // A side as short as its neighbours' gaps still gets its trim: whole.
  const start = before.kind === "open" || short >= whole ? 0 : before.gapMm;
  const lengthMm = roundMm(short >= whole ? whole : whole - short);
  const at = (along: number): [number, number] => alongSide(x0, y0, x1, y1, bulge, (start + along) / whole);
  return {
    from: at(0),
    to: at(lengthMm),
    bulge,
    lengthMm,
    middle: at(lengthMm / 2),
    mitres: [
      before.kind === "open" ? mitreAt(survey, i) : 0,
      after.kind === "open" ? mitreAt(survey, (i + 1) % count) : 0,
    ],
    at,
  };
}

/** Degrees off square of the mitre at a vertex between two open sides, to 0.1; 0 where they run on in line. */
function mitreAt(survey: SurveyRecord, vertex: number): number {
  return Math.round((90 - cornerDeg(survey, vertex) / 2) * 10) / 10 + 0;
}

/** Inner angle at a vertex of the outline, degrees, between the tangents of its two sides. */
function cornerDeg(survey: SurveyRecord, vertex: number): number {
  const count = survey.outline.length;
  const [xa, ya, bulgeIn] = survey.outline[(vertex + count - 1) % count]!;
  const [xb, yb, bulgeOut] = survey.outline[vertex]!;
  const [xc, yc] = survey.outline[(vertex + 1) % count]!;
  // A tangent differs from the chord by half the arc's angle: before it at the start, after it at the end.
  const coming = degreesOf(xb - xa, yb - ya) + halfAngleDeg(bulgeIn);
  const going = degreesOf(xc - xb, yc - yb) - halfAngleDeg(bulgeOut);
  const inner = 180 - (going - coming);
  return ((inner % 360) + 360) % 360;
}

/** Half the angle of an arc in degrees: twice the arc tangent of its bulge. */
function halfAngleDeg(bulge: number): number {
  if (bulge === 0) return 0;
  const deg = 2 * degreesOf(1, bulge < 0 ? -bulge : bulge);
  return bulge < 0 ? -deg : deg;
}

function sideLength(x0: number, y0: number, x1: number, y1: number, bulge: number): number {
  const chord = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
  if (bulge === 0 || chord === 0) return chord;
  const radius = (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  return (radius * 2 * Math.abs(halfAngleDeg(bulge)) * Math.PI) / 180;
}

/** The point at a share (0 to 1) of a straight or curved side. */
function alongSide(x0: number, y0: number, x1: number, y1: number, bulge: number, share: number): [number, number] {
  if (bulge === 0) return [roundMm(x0 + (x1 - x0) * share), roundMm(y0 + (y1 - y0) * share)];
  // Centre: left of the chord by chord (1 - b b) / (4 b); the point is the start turned about it.
  const lift = (1 - bulge * bulge) / (4 * bulge);
  const cx = (x0 + x1) / 2 - (y1 - y0) * lift;
  const cy = (y0 + y1) / 2 + (x1 - x0) * lift;
  const [cos, sin] = directionOf(2 * halfAngleDeg(bulge) * share);
  return [roundMm(cx + (x0 - cx) * cos - (y0 - cy) * sin), roundMm(cy + (x0 - cx) * sin + (y0 - cy) * cos)];
}

function partsOf(run: Run, stockMm: number): TrimPart[] {
  const lengths: number[] = [];
  let rest = run.lengthMm;
  while (rest > stockMm) {
    lengths.push(stockMm);
    rest = roundMm(rest - stockMm);
  }
  if (rest < LEAST_PART_MM && lengths.length > 0) {
    const pair = lengths.pop()! + rest;
    lengths.push(roundMm(pair / 2));
    rest = roundMm(pair - roundMm(pair / 2));
  }
  lengths.push(rest);
  const parts: TrimPart[] = [];
  let along = 0;
  for (let k = 0; k < lengths.length; k++) {
    const end = k === lengths.length - 1 ? run.lengthMm : along + lengths[k]!;
    parts.push({
      from: run.at(along),
      to: run.at(end),
      length: lengths[k]!,
      mitres: [k === 0 ? run.mitres[0] : 0, k === lengths.length - 1 ? run.mitres[1] : 0],
    });
    along = end;
  }
  return parts;
}

/** Stock lengths for the parts, best fit, longest first, a kerf between neighbours. */
export function barsFor(lengthsMm: readonly number[], stockMm: number, kerfMm: number): number {
  const left: number[] = [];
  for (const length of [...lengthsMm].sort((a, b) => b - a)) {
    let best = -1;
    for (let k = 0; k < left.length; k++) {
      if (left[k]! + 1e-6 >= length + kerfMm && (best < 0 || left[k]! < left[best]!)) best = k;
    }
    if (best < 0) left.push(stockMm - length);
    else left[best] = left[best]! - length - kerfMm;
  }
  return left.length;
}

function note<C extends keyof TakeoffFindings>(
  code: C,
  at: readonly [number, number],
  data: TakeoffFindings[C],
): FindingsOf<TakeoffFindings> {
  return {
    code,
    rule: "takeoff",
    level: "note",
    at,
    found: null,
    limit: null,
    releasedBy: null,
    data,
  } as FindingsOf<TakeoffFindings>;
}
