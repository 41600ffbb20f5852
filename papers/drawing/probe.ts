import type { PlanRecord } from "../../core/plan/record.ts";
import type { Pt } from "../sheet.ts";
import { planeAt } from "./deviation.ts";
import { distance } from "./plane.ts";

/** What is known of the base at a place, mm. */
export interface Probe {
  zMm: number;
  /** Above (+) or below (-) the plane the place is judged by. */
  offMm: number;
  /** Nearest reading, and how far away it was taken. */
  nearest: { at: Pt; mm: number };
  /** The height is carried on beyond the readings: nothing was measured there. */
  carried: boolean;
}

/** The base at a place, from the triangle it lies in; null where nothing is known. O(triangles + readings). */
export function probeBase(record: PlanRecord, at: Pt): Probe | null {
  const { surface } = record.surface;
  if (!surface) return null;
  const within = heightIn(surface.points, surface.triangles, at);
  const zMm = within ?? heightIn(surface.points, surface.edgeTriangles, at);
  if (zMm === null) return null;
  const plane = planeAt(surface, at);
  let nearest: Probe["nearest"] | null = null;
  for (const { xMm, yMm } of record.survey.levels) {
    const mm = distance(at, [xMm, yMm]);
    if (!nearest || mm < nearest.mm) nearest = { at: [xMm, yMm], mm };
  }
  if (!nearest) return null;
  return { zMm, offMm: zMm - (plane.a * at[0] + plane.b * at[1] + plane.c), nearest, carried: within === null };
}

function heightIn(
  points: readonly (readonly [number, number, number])[],
  triangles: readonly number[],
  [x, y]: Pt,
): number | null {
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const [a, b, c] = [points[triangles[t]!]!, points[triangles[t + 1]!]!, points[triangles[t + 2]!]!];
    const whole = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    if (whole === 0) continue;
    const shareB = ((x - a[0]) * (c[1] - a[1]) - (y - a[1]) * (c[0] - a[0])) / whole;
    const shareC = ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / whole;
    if (shareB < -1e-9 || shareC < -1e-9 || shareB + shareC > 1 + 1e-9) continue;
    return a[2] + shareB * (b[2] - a[2]) + shareC * (c[2] - a[2]);
  }
  return null;
}
