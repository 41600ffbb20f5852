import { TOLERANCE } from "../../base/tolerances.ts";
import { toMm, toUm } from "../../base/units.ts";
import type { Region, Ring } from "../../geometry/frame.ts";
import { boxOf, regionArea } from "../../geometry/ring.ts";
import { clipStrips, type Strip } from "../../geometry/strips.ts";
import type { Job } from "../../job/job.ts";
import { type BareFinding, NAME_EVERY_UM, NOTHING_UM2, pointsIn } from "./cover.ts";
import { meet, NEEDLE_UM, type RowChoice } from "./rows.ts";

/** Steeper edges (dv : du) cross a gap between rows too soon to leave anything bare. */
const SLOPE = 0.02;
/** Shorter edges are corners, um. */
const SHORT_UM = 20_000;
const OVER_UM = toUm(TOLERANCE.gapOverMm);

/** Names every stretch of the field's edge that falls between two rows with more bare than a gap may be. */
export function bareEdges(parts: readonly Region[], choice: RowChoice, job: Job): BareFinding[] {
  const out: BareFinding[] = [];
  for (const part of parts) {
    for (const ring of [part.outer, ...part.holes]) bareAlong(ring, choice, job, out);
  }
  return out;
}

/** A place this near a finding is named already, um. */
const NAMED_UM = 200_000;

/** Names what of the field reaches beyond the first or the last row's strip and is not named yet. */
export function outsideRows(
  parts: readonly Region[],
  strips: readonly Strip[],
  firstRow: number,
  lastRow: number,
  range: { v0: number; v1: number },
  known: readonly BareFinding[],
): BareFinding[] {
  const out: BareFinding[] = [];
  for (const [row, low, high] of [
    [firstRow, range.v0 - 1, strips[firstRow]![0]],
    [lastRow, strips[lastRow]![1], range.v1 + 1],
  ] as const) {
    if (high - low <= OVER_UM) continue;
    const named = known.filter(({ uv }) => uv[1] > low - NAMED_UM && uv[1] < high + NAMED_UM);
    for (const region of clipStrips(parts, [[low, high]])[0]!) {
      const box = boxOf(region.outer);
      if (box.v1 - box.v0 <= OVER_UM || regionArea(region) < NOTHING_UM2) continue;
      for (const uv of pointsIn(region)) {
        const near = named.some((f) => Math.abs(f.uv[0] - uv[0]) < NAMED_UM && Math.abs(f.uv[1] - uv[1]) < NAMED_UM);
        if (!near) out.push(bareFinding(row, toMm(box.v1 - box.v0), uv));
      }
    }
  }
  return out;
}

/**
 * Bands across, in which a field without a row is named, um: with NAME_EVERY_UM along, no part is 400 mm from its finding.
 * Where the field runs across and is nowhere wider than SLIM_UM, longer bands do.
 */
const BAND_UM = 250_000;
const LONG_BAND_UM = 600_000;
const SLIM_UM = 200_000;

/** Names every part of a field that is too thin for any piece of board. Cost: the field's edges, and its length. */
export function thinFindings(parts: readonly Region[]): BareFinding[] {
  const out: BareFinding[] = [];
  for (const part of parts) {
    const box = boxOf(part.outer);
    const bands: Strip[] = [];
    const band = box.u1 - box.u0 <= SLIM_UM ? LONG_BAND_UM : BAND_UM;
    for (let v = box.v0 - 1; v <= box.v1; v += band) bands.push([v, v + band]);
    const widthMm = toMm(Math.min(NEEDLE_UM, box.u1 - box.u0, box.v1 - box.v0));
    const lengthMm = toMm(Math.max(box.u1 - box.u0, box.v1 - box.v0));
    for (const regions of clipStrips([part], bands))
      for (const region of regions)
        for (const uv of pointsIn(region))
          out.push({
            ...({ code: "fieldThin", rule: "cover", level: "warn", uv, found: widthMm } as const),
            limit: toMm(NEEDLE_UM),
            releasedBy: null,
            data: { lengthMm, widthMm },
          });
  }
  return out;
}

function bareFinding(row: number, bareMm: number, uv: [number, number]): BareFinding {
  return {
    code: "edgeBare",
    rule: "cover",
    level: "warn",
    uv,
    found: bareMm,
    limit: TOLERANCE.gapOverMm,
    releasedBy: null,
    data: { row, bareMm },
  };
}

function bareAlong(ring: Ring, choice: RowChoice, job: Job, out: BareFinding[]): void {
  const width = toUm(job.board.width);
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    const length = Math.abs(b[0] - a[0]);
    if (length < SHORT_UM || Math.abs(b[1] - a[1]) > SLOPE * length) continue;
    const upper = b[0] < a[0];
    const count = Math.ceil(length / NAME_EVERY_UM);
    for (let k = 0; k < count; k++) {
      const share = (k + 0.5) / count;
      const u = a[0] + (b[0] - a[0]) * share;
      const v = a[1] + (b[1] - a[1]) * share;
      const met = meet(v, upper, choice.startUm, width, choice.sideGapUm, toUm(job.bond.minRip));
      if (met.kind !== "bare") continue;
      const bareMm = toMm(Math.round(met.restUm));
      out.push(bareFinding(met.row, bareMm, [u, upper ? v - met.restUm / 2 : v + met.restUm / 2]));
    }
  }
}
