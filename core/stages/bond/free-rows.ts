import { toUm } from "../../base/units.ts";
import type { Job } from "../../job/job.ts";
import type { SetoutRecord, Span } from "../setout/record.ts";
import { longestBoardUm } from "./lattice.ts";

/** Locked joints as free joints are held: middles, by span and by row. */
export interface FreeLocked {
  bySpan: ReadonlyMap<number, readonly number[]>;
  byRow: ReadonlyMap<number, readonly number[]>;
}
/** The figures free joints depend on, whole micrometres. */
export interface FreeRules {
  /** Length the rows are mainly laid from, and the longest board. */
  lengthUm: number;
  longestUm: number;
  endUm: number;
  kerfUm: number;
  minPieceUm: number;
  staggerUm: number;
  /** Rows that keep their joints. */
  locked?: FreeLocked;
}

export function freeRules(job: Job, lengthUm: number): FreeRules {
  return {
    lengthUm,
    longestUm: longestBoardUm(job),
    endUm: toUm(job.gaps.end),
    kerfUm: toUm(job.cut.kerf),
    minPieceUm: toUm(job.bond.minPiece),
    staggerUm: toUm(job.bond.stagger),
  };
}

/** No joint is wanted: the span is short enough for one board and nothing stands in its way. */
export function isSingle(span: Span, rules: FreeRules): boolean {
  return span.u1Um - span.u0Um <= rules.longestUm && span.mustJoint.length === 0;
}

/** Spans in the order they are laid: by row, then u. */
export function spanOrder(setout: SetoutRecord): number[] {
  return setout.rows.flatMap((row) => row.spans);
}

/** Joints of the row below a span; rows are numbered without omission. */
export function jointsBelow(setout: SetoutRecord, row: number, joints: readonly (readonly number[])[]): number[] {
  const below = setout.rows[row - 1];
  if (below === undefined) return [];
  return below.spans.flatMap((s) => joints[s] ?? []).sort((a, b) => a - b);
}

/** Distance of u to the nearest of ascending values. */
export function nearest(values: readonly number[], u: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle]! < u) low = middle + 1;
    else high = middle;
  }
  const up = low < values.length ? values[low]! - u : Number.POSITIVE_INFINITY;
  const down = low > 0 ? u - values[low - 1]! : Number.POSITIVE_INFINITY;
  return Math.min(up, down);
}

/** Lengths of the pieces a span's joints leave. Half an end gap on each side, the odd micrometre on the left piece's. */
export function pieceLengths(span: Span, joints: readonly number[], endUm: number): number[] {
  const out: number[] = [];
  let from = span.u0Um;
  for (const joint of joints) {
    out.push(joint - Math.floor(endUm / 2) - from);
    from = joint + Math.ceil(endUm / 2);
  }
  out.push(span.u1Um - from);
  return out;
}

/** True where these joints break no rule of this span and keep the stagger to the row below. */
export function legal(span: Span, joints: readonly number[], below: readonly number[], rules: FreeRules): boolean {
  for (const joint of joints) {
    if (below.length > 0 && nearest(below, joint) < rules.staggerUm) return false;
    for (const bar of span.noJoint) if (joint > bar.from && joint < bar.to) return false;
  }
  for (const must of span.mustJoint) if (!joints.some((j) => j >= must.from && j <= must.to)) return false;
  return true;
}
