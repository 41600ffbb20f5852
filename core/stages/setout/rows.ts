import { TOLERANCE } from "../../base/tolerances.ts";
import { toMm, toUm } from "../../base/units.ts";
import type { Job } from "../../job/job.ts";
import type { Level } from "./levels.ts";

export interface RowChoice {
  /** Lower edge of row 0's strip. */
  startUm: number;
  sideGapUm: number;
  cost: RowCost;
  reason: { code: string; data: Record<string, number | string> };
}
/** What a start and a gap bring, lengths in whole mm along the rows; compared in the order written. */
export interface RowCost {
  /** Edges of the outline with less than minRip of board, or bare by more than a gap may be. */
  badMm: number;
  /** Rips weighted by how much people see them, short bits beside cut-outs, and plain rip length. */
  ripMm: number;
  gapOffUm: number;
  rows: number;
  /** Narrowest rip, um, negative: wider is better. */
  narrowest: number;
  /** Rips on lower edges: a rip at the end is cut when measured, so it is better there. */
  earlyMm: number;
  offsetUm: number;
}

/** A needle is a piece whose greatest width or length is under this: left out and named. */
export const NEEDLE_UM = 20_000;
const OVER_UM = toUm(TOLERANCE.ripFreeMm);
const UNDER_UM = toUm(TOLERANCE.gapUnderMm);
/** How much a rip of one metre weighs beyond itself, by the side it lies on. */
const SEEN: Record<string, number> = { door: 4, open: 3, pool: 3, outlet: 1, kerb: 1, wall: 0, cutout: 0 };
/** Short webs beside a cut-out weigh this many times their length: enough to settle a tie, not to rip a whole wall. */
const WEB_WEIGHT = 3;
/** Most edges of each kind that breed candidates; all edges are judged. */
const BREEDERS = 16;
/** Offsets tried evenly over a pitch besides. */
const SWEEP = 24;

/**
 * Where row 0 starts and how far the rows lie apart: first without rips by spreading the gaps, else a full board on the
 * side people see, else both ends shared. A sweep over the places where something changes: each long edge flush with a
 * row's edge, each edge with just minRip, and even shares between pairs, times the gaps that make a pair come out.
 * `gridUm`: the lower edge of some row's strip, where it is given (`bond.startAt`); the gap is `gaps.side` then. Cost: candidates (bounded) x edges.
 */
export function chooseRows(
  levels: readonly Level[],
  lowUm: number,
  highUm: number,
  job: Job,
  gridUm: number | null = null,
): RowChoice {
  const width = toUm(job.board.width);
  const minRip = toUm(job.bond.minRip);
  const lower = heaviest(levels, false, lowUm);
  const upper = heaviest(levels, true, highUm);
  const gaps = gridUm === null ? gapCandidates(lower, upper, width, job) : [toUm(job.gaps.side)];
  const fixed = job.bond.firstRow === null ? null : lowUm - Math.max(0, width - toUm(job.bond.firstRow));
  let best: { startUm: number; gap: number; cost: RowCost } | null = null;
  for (const gap of gaps) {
    const pitch = width + gap;
    const given = gridUm === null ? fixed : firstStart(lowUm, gridUm, pitch, width, minRip);
    const offsets = given !== null ? [0] : offsetCandidates(lower, upper, lowUm, width, gap, minRip);
    for (const offset of offsets) {
      const startUm = given ?? firstStart(lowUm, lowUm + offset, pitch, width, minRip);
      const cost = costOf(levels, startUm, highUm, width, gap, minRip, job, lowUm);
      if (best === null || compare(cost, best.cost) < 0) best = { startUm, gap, cost };
    }
  }
  const found = best!;
  return {
    startUm: found.startUm,
    sideGapUm: found.gap,
    cost: found.cost,
    reason: reasonFor(found.startUm, found.gap, found.cost, levels, width, job, fixed !== null || gridUm !== null),
  };
}

export function compare(a: RowCost, b: RowCost): number {
  return (
    a.badMm - b.badMm ||
    a.ripMm - b.ripMm ||
    a.gapOffUm - b.gapOffUm ||
    a.rows - b.rows ||
    a.narrowest - b.narrowest ||
    a.earlyMm - b.earlyMm ||
    a.offsetUm - b.offsetUm
  );
}

/** How an edge of the field meets the rows. `restUm`: width of board left there, or bare width where `bare`. */
export interface Meeting {
  kind: "full" | "ripped" | "narrow" | "needle" | "bare";
  restUm: number;
  row: number;
}

/** What the rows leave at a level of v: a full board within the tolerance, a rip, a needle, or a bare stretch of gap. */
export function meet(
  vUm: number,
  upper: boolean,
  startUm: number,
  width: number,
  gap: number,
  minRip: number,
): Meeting {
  const pitch = width + gap;
  const row = Math.floor((vUm - startUm) / pitch);
  const t = vUm - startUm - row * pitch;
  if (upper) {
    if (t >= width - UNDER_UM && t <= width + OVER_UM) return { kind: "full", restUm: width, row };
    if (t > width) return { kind: "bare", restUm: t - width, row };
    if (t + gap <= OVER_UM) return { kind: "full", restUm: width, row: row - 1 };
    return { kind: t < NEEDLE_UM ? "needle" : t < minRip ? "narrow" : "ripped", restUm: t, row };
  }
  if (t <= UNDER_UM) return { kind: "full", restUm: width, row };
  if (pitch - t <= OVER_UM) return { kind: "full", restUm: width, row: row + 1 };
  if (t >= width) return { kind: "bare", restUm: pitch - t, row };
  const rest = width - t;
  return { kind: rest < NEEDLE_UM ? "needle" : rest < minRip ? "narrow" : "ripped", restUm: rest, row };
}

function costOf(
  levels: readonly Level[],
  startUm: number,
  highUm: number,
  width: number,
  gap: number,
  minRip: number,
  job: Job,
  lowUm: number,
): RowCost {
  let bad = 0;
  let rip = 0;
  let early = 0;
  let narrowest = width;
  for (const level of levels) {
    const met = meet(level.vUm, level.upper, startUm, width, gap, minRip);
    if (met.kind === "full") continue;
    const seen = 1 + (SEEN[level.kind] ?? 0);
    if (met.kind !== "ripped") {
      if (level.kind === "cutout") rip += level.lengthUm * WEB_WEIGHT;
      else bad += level.lengthUm * seen;
    }
    if (level.kind !== "cutout") {
      rip += level.lengthUm * seen;
      if (!level.upper) early += level.lengthUm;
      if (met.restUm < narrowest) narrowest = met.restUm;
    }
  }
  const pitch = width + gap;
  return {
    badMm: Math.round(bad / 1000),
    ripMm: Math.round(rip / 1000),
    gapOffUm: Math.abs(gap - toUm(job.gaps.side)),
    rows: Math.ceil((highUm - startUm - UNDER_UM) / pitch),
    narrowest: -Math.round(narrowest / 100) * 100,
    earlyMm: Math.round(early / 1000),
    offsetUm: Math.round((lowUm - startUm) / 10) * 10,
  };
}

/** The strip that holds the field's lowest point, brought down from any strip of the same grid. */
function firstStart(lowUm: number, anyUm: number, pitch: number, width: number, minRip: number): number {
  const down = Math.floor((lowUm - anyUm) / pitch);
  const start = anyUm + down * pitch;
  const t = lowUm - start;
  if (pitch - t <= OVER_UM || t > width - Math.min(NEEDLE_UM, minRip)) return start + pitch;
  return start;
}

function heaviest(levels: readonly Level[], upper: boolean, extreme: number): number[] {
  const chosen = levels
    .filter((l) => l.upper === upper)
    .sort((a, b) => Math.round((b.lengthUm - a.lengthUm) / 1000) || a.vUm - b.vUm)
    .slice(0, BREEDERS)
    .map((l) => l.vUm);
  if (!chosen.some((v) => Math.abs(v - extreme) < 100)) chosen.push(extreme);
  return chosen;
}

/** Offsets of a strip's lower edge from the field's lowest point, by what they bring about. */
function offsetCandidates(
  lower: readonly number[],
  upper: readonly number[],
  lowUm: number,
  width: number,
  gap: number,
  minRip: number,
): number[] {
  const pitch = width + gap;
  const out = new Set<number>();
  const add = (v: number) => out.add((((v - lowUm) % pitch) + pitch) % pitch);
  for (const v of lower) {
    add(v);
    add(v - width + minRip);
  }
  for (const v of upper) {
    add(v - width);
    add(v - minRip);
  }
  for (const a of lower.slice(0, 4)) {
    for (const b of upper.slice(0, 4)) {
      const rows = Math.floor((b - a - gap - 2 * minRip) / pitch);
      if (rows < 0) continue;
      const share = Math.floor((b - a - gap - rows * pitch) / 2);
      add(a - width + share);
    }
  }
  // Where several edges pull different ways the best may lie between all of these.
  for (let k = 0; k < SWEEP; k++) add(lowUm + Math.round((k * pitch) / SWEEP));
  return [...out];
}

/** Gaps worth trying: the nominal one, the range's ends, and those that let whole boards fill a pair of edges. */
function gapCandidates(lower: readonly number[], upper: readonly number[], width: number, job: Job): number[] {
  const nominal = toUm(job.gaps.side);
  const [from, to] = [toUm(job.gaps.sideRange[0]), toUm(job.gaps.sideRange[1])];
  const out = new Set<number>([Math.min(Math.max(nominal, from), to), from, to]);
  if (from < to) {
    for (const a of lower.slice(0, 8)) {
      for (const b of upper.slice(0, 8)) {
        if (b - a <= width) continue;
        const most = Math.floor((b - a + from) / (width + from)) + 1;
        for (let rows = most; rows >= 2 && rows >= most - 2; rows--) addSpread(b - a, rows, width, from, to, out);
      }
    }
  }
  return [...out];
}

/** The roundest gap with which `rows` whole boards fill a height within the tolerance. */
function addSpread(height: number, rows: number, width: number, from: number, to: number, out: Set<number>): void {
  const most = (height - rows * width + UNDER_UM) / (rows - 1);
  const least = (height - rows * width - OVER_UM) / (rows - 1);
  for (const step of [1000, 500, 200, 100, 50, 10, 1]) {
    const even = (height - rows * width) / (rows - 1);
    const gap = Math.floor(even / step + 1e-9) * step;
    for (const g of [gap, gap + step]) {
      if (g < least || g > most || g < from || g > to) continue;
      out.add(g);
      return;
    }
  }
}

function reasonFor(
  startUm: number,
  gap: number,
  cost: RowCost,
  levels: readonly Level[],
  width: number,
  job: Job,
  given: boolean,
): RowChoice["reason"] {
  const minRip = toUm(job.bond.minRip);
  const sums = { first: 0, last: 0, firstRest: 0, lastRest: 0 };
  let longFirst = 0;
  let longLast = 0;
  for (const level of levels) {
    if (level.kind === "cutout") continue;
    const met = meet(level.vUm, level.upper, startUm, width, gap, minRip);
    if (met.kind === "full") continue;
    if (level.upper) {
      sums.last += level.lengthUm;
      if (level.lengthUm > longLast) {
        longLast = level.lengthUm;
        sums.lastRest = met.restUm;
      }
    } else {
      sums.first += level.lengthUm;
      if (level.lengthUm > longFirst) {
        longFirst = level.lengthUm;
        sums.firstRest = met.restUm;
      }
    }
  }
  const data = {
    gapMm: toMm(gap),
    nominalMm: job.gaps.side,
    firstMm: toMm(sums.first === 0 ? width : sums.firstRest),
    lastMm: toMm(sums.last === 0 ? width : sums.lastRest),
    badMm: cost.badMm,
  };
  if (given) return { code: "rowsGiven", data };
  if (sums.first === 0 && sums.last === 0) {
    return { code: gap === toUm(job.gaps.side) ? "rowsFit" : "rowsSpread", data };
  }
  if (sums.first === 0) return { code: "rowsFullFirst", data };
  if (sums.last === 0) return { code: "rowsFullLast", data };
  return { code: "rowsShared", data };
}
