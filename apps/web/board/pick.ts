import { edgePoints, inside, ringPoints } from "../../../papers/drawing/plane.ts";
import type { Pt } from "../../../papers/sheet.ts";
import type { SaidFinding } from "../desk/asks.ts";
import { type Camera, pxPerMm, type Size, toScreen, toSitePoint } from "./camera.ts";
import { findingMarks } from "./finding-marks.ts";
import type { Hit } from "./hit.ts";
import { clipsApart } from "./paint-rows.ts";
import { piecesIn, type Rows, type Spots, spotsIn, toUv } from "./rows.ts";

/** A fingertip: what lies nearest within this is meant, CSS px. */
export const NEAR_PX = 24;

/** What is drawn and can be met. */
export interface Pickable {
  rows: Rows | null;
  findings: readonly SaidFinding[];
  pieces: boolean;
  clips: boolean;
  levels: boolean;
}

/**
 * What a tap at a screen point means: a finding's mark or a reading first, for they are small and lie on top; then a clip,
 * a cut-out, a board, a side. Of one sort the nearest within a fingertip.
 */
export function pick(what: Pickable, on: Pt, camera: Camera, size: Size): Hit | null {
  const { rows } = what;
  const mark = nearest(
    findingMarks(what.findings, camera, size).map(({ index, at }) => [index, distance(at, on)] as const),
    NEAR_PX,
  );
  if (mark !== null) return { kind: "finding", index: mark };
  if (!rows) return null;
  const { survey } = rows.record;
  if (what.levels) {
    const level = nearest(
      survey.levels.map(({ xMm, yMm }, i) => [i, distance(toScreen(camera, size, [xMm, yMm]), on)] as const),
      NEAR_PX,
    );
    if (level !== null) return { kind: "level", index: level };
  }
  const at = toSitePoint(camera, size, on);
  const px = pxPerMm(camera);
  if (what.clips && clipsApart(rows, camera)) {
    const reach = Math.min(NEAR_PX, Math.max(10, rows.widthMm * px * 0.45)) / px;
    const clip = nearestSpot(rows, rows.clips, at, reach);
    const screw = nearestSpot(rows, rows.screws, at, reach);
    if (screw && (!clip || screw[1] < clip[1])) return { kind: "screw", index: screw[0] };
    if (clip) return { kind: "clip", index: clip[0] };
  }
  const cutout = survey.cutouts.findIndex(({ ring }) => {
    const points = ringPoints(ring);
    return inside(points, at) || lineDistance([...points, points[0]!], at) * px < 6;
  });
  if (cutout >= 0) return { kind: "cutout", index: cutout };
  if (what.pieces) {
    const piece = pieceAt(rows, at);
    if (piece !== null) return { kind: "piece", index: piece };
  }
  const side = nearest(
    survey.outline.map((_, i) => [i, lineDistance(edgePoints(survey.outline, i), at) * px] as const),
    NEAR_PX,
  );
  return side === null ? null : { kind: "side", index: side };
}

/** The piece over a place; where the place is a gap, the one beside it. */
export function pieceAt(rows: Rows, at: Pt): number | null {
  const [u, v] = toUv(rows, at[0], at[1]);
  const gap = Math.max(rows.record.job.gaps.side, rows.record.job.gaps.end);
  let best: number | null = null;
  let least = Infinity;
  piecesIn(rows, { u0: u - gap, v0: v - gap, u1: u + gap, v1: v + gap }, (i) => {
    const [u0, v0, u1, v1] = rows.pieces.subarray(i * 4, i * 4 + 4) as unknown as [number, number, number, number];
    const off = Math.max(u0 - u, u - u1, v0 - v, v - v1, 0);
    if (off > gap || off >= least) return;
    if (rows.shaped[i] && !inShape(rows, i, u, v)) return;
    least = off;
    best = i;
  });
  return best;
}

function inShape({ record }: Rows, piece: number, u: number, v: number): boolean {
  const { outer, holes } = record.bond.pieces[piece]!.region;
  const at: Pt = [u * 1000, v * 1000];
  return inside(outer, at) && !holes.some((hole) => inside(hole, at));
}

function nearestSpot(rows: Rows, spots: Spots, at: Pt, reach: number): readonly [number, number] | null {
  const [u, v] = toUv(rows, at[0], at[1]);
  let best: readonly [number, number] | null = null;
  spotsIn(spots, { u0: u - reach, v0: v - reach, u1: u + reach, v1: v + reach }, (k) => {
    const far = distance([spots.u[k]!, spots.v[k]!], [u, v]);
    if (far <= reach && (!best || far < best[1])) best = [spots.index[k]!, far];
  });
  return best;
}

function nearest(found: readonly (readonly [index: number, far: number])[], within: number): number | null {
  let best: number | null = null;
  let least = within;
  for (const [index, far] of found) {
    if (far > least) continue;
    least = far;
    best = index;
  }
  return best;
}

function lineDistance(points: readonly Pt[], at: Pt): number {
  let least = Infinity;
  for (let i = 1; i < points.length; i++) {
    const [ax, ay] = points[i - 1]!;
    const [bx, by] = points[i]!;
    const length2 = (bx - ax) ** 2 + (by - ay) ** 2;
    const share = length2 === 0 ? 0 : ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / length2;
    const t = Math.min(1, Math.max(0, share));
    least = Math.min(least, distance([ax + (bx - ax) * t, ay + (by - ay) * t], at));
  }
  return least;
}

function distance([ax, ay]: Pt, [bx, by]: Pt): number {
  return Math.hypot(bx - ax, by - ay);
}
