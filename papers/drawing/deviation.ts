import type { Plane, SurfaceRecord } from "../../core/stages/surface/record.ts";
import type { Fill, Item, Pt, Stroke } from "../sheet.ts";
import { between, distance, inside } from "./plane.ts";

/** One class of deviation from the plane, mm; null is without end. Classes beyond the limit fail and are hatched. */
interface DeviationClass {
  from: number | null;
  to: number | null;
  colour: string;
  /** Which way it fails: hatched to the right above, to the left below. */
  fails: "above" | "below" | null;
}

/** Two-sided: blue below, orange above, told apart with any colour sight; the limit is a hard break. */
export function deviationClasses(limitMm: number): DeviationClass[] {
  const half = limitMm / 2;
  return [
    { from: null, to: -limitMm, colour: "#5b93c7", fails: "below" },
    { from: -limitMm, to: -half, colour: "#a9cbe6", fails: null },
    { from: -half, to: 0, colour: "#e3eff8", fails: null },
    { from: 0, to: half, colour: "#fdf0e0", fails: null },
    { from: half, to: limitMm, colour: "#f7cd9c", fails: null },
    { from: limitMm, to: null, colour: "#e08a3c", fails: "above" },
  ];
}

export function failHatch(fails: "above" | "below"): Fill {
  return { hatchDeg: fails === "above" ? 45 : 135, spacingMm: 1.4, tone: "ink" };
}

/**
 * The map: each triangle cut into its classes, one region a class. Nothing is drawn where no triangle stands.
 * Deviation is from the facet's plane where the base has several, else from the minimum-zone plane.
 */
export function drawDeviation(surface: SurfaceRecord, limitMm: number): Item[] {
  const classes = deviationClasses(limitMm);
  const rings: Pt[][][] = classes.map(() => []);
  const { points, triangles } = surface;
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const corners = [points[triangles[t]!]!, points[triangles[t + 1]!]!, points[triangles[t + 2]!]!];
    const centre: Pt = [
      (corners[0]![0] + corners[1]![0] + corners[2]![0]) / 3,
      (corners[0]![1] + corners[1]![1] + corners[2]![1]) / 3,
    ];
    const plane = planeAt(surface, centre);
    const field = corners.map(([x, y, z]): Sample => ({ x, y, d: z - (plane.a * x + plane.b * y + plane.c) }));
    classes.forEach((band, i) => {
      let ring = field;
      if (band.from !== null) ring = keep(ring, band.from, 1);
      if (band.to !== null) ring = keep(ring, band.to, -1);
      if (ring.length >= 3) rings[i]!.push(ring.map(({ x, y }): Pt => [x, y]));
    });
  }
  return classes.flatMap((band, i): Item[] => {
    if (rings[i]!.length === 0) return [];
    const flat: Item = {
      kind: "region",
      layer: "deviation",
      rings: rings[i]!,
      stroke: null,
      fill: { colour: band.colour },
    };
    return band.fails ? [flat, { ...flat, fill: failHatch(band.fails) }] : [flat];
  });
}

/** The limit itself as a line, so that the break shows in black and white: where two classes meet at +limit or -limit. */
export function drawLimitLines(surface: SurfaceRecord, limitMm: number, pen: Stroke): Item[] {
  const items: Item[] = [];
  const { points, triangles } = surface;
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const corners = [points[triangles[t]!]!, points[triangles[t + 1]!]!, points[triangles[t + 2]!]!];
    const centre: Pt = [
      (corners[0]![0] + corners[1]![0] + corners[2]![0]) / 3,
      (corners[0]![1] + corners[1]![1] + corners[2]![1]) / 3,
    ];
    const plane = planeAt(surface, centre);
    const field = corners.map(([x, y, z]): Sample => ({ x, y, d: z - (plane.a * x + plane.b * y + plane.c) }));
    for (const level of [-limitMm, limitMm]) {
      const cut: Pt[] = [];
      for (let e = 0; e < 3; e++) {
        const [p, q] = [field[e]!, field[(e + 1) % 3]!];
        if (p.d < level === q.d < level) continue;
        const share = (level - p.d) / (q.d - p.d);
        cut.push([p.x + (q.x - p.x) * share, p.y + (q.y - p.y) * share]);
      }
      if (cut.length === 2)
        items.push({ kind: "path", layer: "deviation", points: cut, closed: false, stroke: pen, fill: null });
    }
  }
  return items;
}

/** The plane a place is judged by. Facets meet on their edges and end on the outline's: there the nearest one counts. */
export function planeAt(surface: SurfaceRecord, at: Pt): Plane {
  const { facets } = surface;
  if (facets.length < 2) return surface.zone;
  const round = facets.find((facet) => inside(facet.ring, at));
  if (round) return round.plane;
  const far = facets.map(({ ring }) => Math.min(...ring.map((a, i) => toSegment(at, a, ring[(i + 1) % ring.length]!))));
  return facets[far.indexOf(Math.min(...far))]!.plane;
}

function toSegment(at: Pt, a: Pt, b: Pt): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / square;
  return distance(at, between(a, b, Math.max(0, Math.min(1, share))));
}

interface Sample {
  x: number;
  y: number;
  d: number;
}

/** The part of a convex ring where d >= level (sign 1) or d <= level (sign -1). */
function keep(ring: readonly Sample[], level: number, sign: 1 | -1): Sample[] {
  const out: Sample[] = [];
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    const da = (a.d - level) * sign;
    const db = (b.d - level) * sign;
    if (da >= 0) out.push(a);
    if (da >= 0 === db >= 0) continue;
    const share = da / (da - db);
    out.push({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share, d: level });
  }
  return out;
}
