import { toMm } from "../base/units.ts";
import { degreesOf } from "../geometry/direction.ts";
import { toSite } from "../geometry/frame.ts";
import type { Job } from "../job/job.ts";
import type { SurveyRecord } from "../stages/survey/record.ts";
import type { LoadedJob } from "./load.ts";
import { type Judged, makePlan, type StageName } from "./make.ts";
import type { PlanRecord } from "./record.ts";

/** One way to set the job out: what is chosen, and what comes of it. */
export interface Variant {
  kind: Job["bond"]["kind"];
  angleDeg: number;
  figures: VariantFigures;
  /** Nothing else in the table is as good in every respect and better in one. */
  unbeaten: boolean;
  /** The boards' rings, site mm: x, y, ... each ring ended by NaN, NaN. */
  picture: Float32Array;
}
export interface VariantFigures {
  /** All that is bought and has a price, minor units. */
  costMinor: number;
  unpriced: number;
  boards: number;
  boardsAtLeast: number;
  /** Saw cuts across and rips along. */
  cuts: number;
  rips: number;
  /** Null: no row is ripped; no piece has a joint. */
  smallestRipMm: number | null;
  smallestPieceMm: number | null;
  stops: number;
  warnings: number;
}
const KINDS = ["half", "third", "free", "stack"] as const;
/** Most directions tried. */
const DIRECTIONS = 4;
/** Directions closer than this are one, degrees. */
const ALIKE_DEG = 0.5;

/** What is worth comparing: every bond, along and across the longest walls; the direction that is planned now comes first. */
export function waysToSetOut(survey: SurveyRecord, nowDeg: number): { kind: Variant["kind"]; angleDeg: number }[] {
  return directions(survey, nowDeg).flatMap((angleDeg) => KINDS.map((kind) => ({ kind, angleDeg })));
}

/** Directions of the rows: the present one, then along and across the straight sides, longest first. */
export function directions(survey: SurveyRecord, nowDeg: number): number[] {
  const sides = survey.outline.flatMap(([x0, y0, bulge], i) => {
    if (bulge !== 0) return [];
    const [x1, y1] = survey.outline[(i + 1) % survey.outline.length]!;
    const [dx, dy] = [x1 - x0, y1 - y0];
    return [{ deg: Math.round(degreesOf(dx, dy) * 1000) / 1000, length2: dx * dx + dy * dy }];
  });
  sides.sort((a, b) => b.length2 - a.length2);
  const out = [nowDeg];
  for (const deg of [nowDeg + 90, ...sides.flatMap((side) => [side.deg, side.deg + 90])]) {
    const turn = Math.round((((deg % 180) + 180) % 180) * 1000) / 1000;
    if (out.length < DIRECTIONS && !out.some((known) => apart(known, turn) < ALIKE_DEG)) out.push(turn);
  }
  return out;
}

/** Angle between two lines, degrees, 0 to 90. */
function apart(a: number, b: number): number {
  const off = ((((a - b) % 180) + 180) % 180) + 0;
  return off > 90 ? 180 - off : off;
}

/** Plans the job one way. The base is judged once for all of them. */
export function planWay(
  loaded: LoadedJob,
  judged: Judged,
  way: { kind: Variant["kind"]; angleDeg: number },
  onStage?: (stage: StageName) => void,
): PlanRecord {
  const { job } = loaded.read;
  // A shift, a first row and locked joints belong to the set-out they were chosen for.
  const same = job.bond.kind === way.kind && job.bond.angle === way.angleDeg;
  const bond = same
    ? job.bond
    : { ...job.bond, kind: way.kind, angle: way.angleDeg, shift: null, firstRow: null, locked: [] };
  return makePlan({ ...loaded, read: { ...loaded.read, job: { ...job, bond } } }, onStage, judged);
}

export function variantOf(record: PlanRecord): Variant {
  const { bond, cutting, takeoff, setout, fixing, laying } = record;
  const findings = [setout, bond, fixing, cutting, laying].flatMap((stage) => stage.findings);
  const count = (level: string) => findings.filter((finding) => finding.level === level).length;
  const jointed = new Set(bond.joints.flatMap(({ left, right }) => [left, right]));
  return {
    kind: bond.kind,
    angleDeg: setout.frame.angleDeg,
    figures: {
      costMinor: takeoff.totalMinor,
      unpriced: takeoff.unpriced.length,
      boards: cutting.boards.length,
      boardsAtLeast: cutting.boardsAtLeast,
      cuts: cutting.cuts,
      rips: cutting.rips,
      smallestRipMm: least(bond.pieces.filter(({ edges }) => edges.includes("ripped")).map((p) => toMm(p.widthUm))),
      smallestPieceMm: least(bond.pieces.filter((_, i) => jointed.has(i)).map((p) => toMm(p.lengthUm))),
      stops: count("stop"),
      warnings: count("warn"),
    },
    unbeaten: false,
    picture: pictureOf(record),
  };
}

function least(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((a, b) => Math.min(a, b));
}

function pictureOf({ bond, setout }: PlanRecord): Float32Array {
  const out: number[] = [];
  for (const { region } of bond.pieces)
    for (const ring of [region.outer, ...region.holes]) {
      for (const [u, v] of ring) out.push(...toSite(setout.frame, u, v));
      out.push(Number.NaN, Number.NaN);
    }
  return Float32Array.from(out);
}

/** Marks those that nothing beats: no other is at least as good in all respects and better in one. Cost: n squared. */
export function markUnbeaten(variants: readonly Variant[]): Variant[] {
  const scores = variants.map(({ figures }) => scoreOf(figures));
  return variants.map((variant, i) => ({
    ...variant,
    unbeaten: !scores.some((other, k) => k !== i && beats(other, scores[i]!)),
  }));
}

/** Each figure so that less is better. */
function scoreOf(f: VariantFigures): number[] {
  return [
    f.costMinor,
    f.boards,
    f.cuts + f.rips,
    -(f.smallestRipMm ?? Infinity),
    -(f.smallestPieceMm ?? Infinity),
    f.stops,
    f.warnings,
  ];
}

function beats(a: readonly number[], b: readonly number[]): boolean {
  return a.every((value, i) => value <= b[i]!) && a.some((value, i) => value < b[i]!);
}
