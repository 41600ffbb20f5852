import type { Finding, FindingsOf } from "../../base/finding.ts";
import { toMm, toUm } from "../../base/units.ts";
import { toSite } from "../../geometry/frame.ts";
import type { Job } from "../../job/job.ts";
import type { BondRecord } from "../bond/record.ts";
import type { Clip, FixingRecord } from "../fixing/record.ts";
import type { SetoutRecord } from "../setout/record.ts";
import type { LayingFindings } from "./findings.ts";
import { standingNear, standingOf } from "./obstacles.ts";
import type { LayingRecord, LayingStep } from "./record.ts";
import { orderRow } from "./row.ts";
import { type Hit, type Obstacle, sweepHits } from "./sweep.ts";

/** The line is checked after so many rows. Common practice, no source. */
const CHECK_EVERY = 5;
/** A finding speaks for what is this near; the piece's middle gets one of its own where no hit is so near, um. */
const NEAR_UM = 250_000;
/** Places along a long hit leave no part of it further from one than this, um. */
const ALONG_UM = 350_000;

/**
 * The order of work: rows from the start line outward over all bays together, so that bays which meet share one datum;
 * in a row from left to right, what is cut when measured last. Start, last and end clips are screwed down before the
 * board that covers them; a seam's clips once the last board lies that they hold from below, so always
 * before the next row. Each piece's way in from +v is tested against what stands and what is laid.
 */
export function orderLaying(job: Job, setout: SetoutRecord, bond: BondRecord, fixing: FixingRecord): LayingRecord {
  const rows = setout.rows.map((): number[] => []);
  bond.pieces.forEach((piece, i) => {
    rows[piece.row]!.push(i);
  });
  const order = rows.flatMap((pieces) => orderRow(bond.pieces, pieces));
  const steps = order.map((piece, i): LayingStep => ({ step: i + 1, piece, clipsBefore: [], clipsAfter: [] }));
  const stepOf = new Array<number>(bond.pieces.length).fill(-1);
  order.forEach((piece, i) => {
    stepOf[piece] = i;
  });
  fixing.clips.forEach((clip, index) => {
    const below = clip.kind === "seam" ? clip.holds.filter((p) => bond.pieces[p]!.row < clip.seam) : [];
    if (below.length > 0) steps[lastOf(below, stepOf)]!.clipsAfter.push(index);
    else steps[firstOf(clip, stepOf)]!.clipsBefore.push(index);
  });
  return { steps, checkLines: checkLines(setout), findings: captives(job, setout, bond, order, stepOf) };
}

function lastOf(pieces: readonly number[], stepOf: readonly number[]): number {
  return pieces.reduce((last, p) => Math.max(last, stepOf[p]!), -1);
}

function firstOf(clip: Clip, stepOf: readonly number[]): number {
  return clip.holds.reduce((first, p) => Math.min(first, stepOf[p]!), Number.POSITIVE_INFINITY);
}

/** Every few rows, and before the last row, which takes up what has drifted. */
function checkLines(setout: SetoutRecord): LayingRecord["checkLines"] {
  const out: LayingRecord["checkLines"] = [];
  const beforeLast = setout.rows.length - 2;
  for (const row of setout.rows) {
    const due = (row.row + 1) % CHECK_EVERY === 0 && row.row < beforeLast - 1;
    if (due || row.row === beforeLast) out.push({ row: row.row, vUm: row.v1Um });
  }
  return out;
}

function captives(
  job: Job,
  setout: SetoutRecord,
  bond: BondRecord,
  order: readonly number[],
  stepOf: readonly number[],
): Finding[] {
  const engage = toUm(job.clips.engage);
  const standing = standingOf(setout);
  const findings: Finding[] = [];
  for (const index of order) {
    const piece = bond.pieces[index]!;
    const obstacles: Obstacle[] = standingNear(standing, piece.v0Um, piece.v1Um + engage);
    if (!piece.plain) obstacles.push(...laidBeside(bond, index, stepOf));
    const hits = sweepHits(piece, engage, obstacles);
    const middle = [Math.round((piece.u0Um + piece.u1Um) / 2), Math.round((piece.v0Um + piece.v1Um) / 2)] as const;
    const places = hits.flatMap((hit) => placesOf(hit, piece.v1Um).map((at) => ({ at, hit })));
    const near = (at: readonly [number, number]): boolean =>
      Math.abs(at[0] - middle[0]) <= NEAR_UM && Math.abs(at[1] - middle[1]) <= NEAR_UM;
    if (hits.length > 0 && !places.some(({ at }) => near(at))) places.push({ at: middle, hit: hits[0]! });
    for (const { at, hit } of places) {
      const roomMm = tenths(hit.room);
      const needMm = tenths(engage);
      const finding: FindingsOf<LayingFindings> = {
        code: "captive",
        rule: "captive",
        level: "warn",
        at: toSite(setout.frame, at[0], at[1]),
        found: roomMm,
        limit: needMm,
        releasedBy: null,
        data: { row: piece.row, piece: piece.id, needMm, roomMm, what: hit.what, name: hit.name },
      };
      findings.push(finding);
    }
  }
  return findings;
}

/** The middle of a short hit; several places along a long one, on the piece's upper edge. */
function placesOf(hit: Hit, topUm: number): (readonly [number, number])[] {
  const count = Math.max(1, Math.ceil((hit.u1 - hit.u0) / (2 * ALONG_UM)));
  if (count === 1) return [[Math.round((hit.u0 + hit.u1) / 2), hit.v]];
  return Array.from({ length: count }, (_, i) => [
    Math.round(hit.u0 + ((hit.u1 - hit.u0) * (2 * i + 1)) / (2 * count)),
    topUm,
  ]);
}

/** Edges of pieces of the same row laid earlier, over or under this one: only where the row is forked. */
function laidBeside(bond: BondRecord, index: number, stepOf: readonly number[]): Obstacle[] {
  const piece = bond.pieces[index]!;
  const out: Obstacle[] = [];
  for (const step of [-1, 1]) {
    for (let i = index + step; i >= 0 && i < bond.pieces.length && bond.pieces[i]!.row === piece.row; i += step) {
      const other = bond.pieces[i]!;
      if (other.u1Um <= piece.u0Um || other.u0Um >= piece.u1Um || stepOf[i]! > stepOf[index]!) continue;
      const ring = other.region.outer;
      for (let k = 0; k < ring.length; k++)
        out.push({ p: ring[k]!, q: ring[(k + 1) % ring.length]!, what: "piece", name: other.id });
    }
  }
  return out;
}

function tenths(um: number): number {
  return Math.round(toMm(um) * 10) / 10;
}
