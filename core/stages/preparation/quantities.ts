import { clipAbove, type Polygon, polygonVolume } from "../../geometry/clip-prism.ts";
import { aboveLevel } from "../../geometry/volume.ts";
import type { BaseMaterial, Job } from "../../job/job.ts";
import type { PreparationOption } from "./record.ts";

/** A triangulated surface with the change of height over each point: positive fills, negative grinds, mm. */
export interface Changes {
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  corners: ArrayLike<number>;
  change: ArrayLike<number>;
}
export type Quantities = Pick<
  PreparationOption,
  "grindMm3" | "fillMm3" | "massKg" | "massPerM2Kg" | "costMinor" | "materials"
> & { thinMm2: number; cutIn: boolean };

const MM3_PER_LITRE = 1_000_000;

/**
 * Volumes, mass and money of a change, exact over the triangles. Where filling would be thinner than the material's
 * least thickness its edge is cut in: ground down so far that the least thickness fits, if that is within what may be
 * ground (`cutIn`); both volumes are counted. Deeper least thicknesses are feathered openly and only named (`thinMm2`).
 * Cost: litres ground at `grindCost`, litres filled at the material's cost, each rounded to whole minor units.
 */
export function quantitiesOf(job: Job, changes: Changes, material: BaseMaterial | null): Quantities {
  const { grindMm3, fillMm3, fillMinor, costMinor, thinMm2, cutIn } = moneyOf(job, changes, material);
  const litres = fillMm3 / MM3_PER_LITRE;
  const density = material?.density ?? 0;
  const bags = material?.bag ? Math.ceil(litres / material.bag - 1e-9) : null;
  return {
    grindMm3,
    fillMm3,
    massKg: litres * density,
    massPerM2Kg: heaviestSquare(changes, density),
    costMinor,
    materials: material && litres > 0 ? [{ name: material.name, litres, bags, costMinor: fillMinor }] : [],
    thinMm2,
    cutIn,
  };
}

/** The part of it that money hangs on. */
export function moneyOf(job: Job, changes: Changes, material: BaseMaterial | null) {
  const { grindCost, grindMax } = job.base.preparation;
  const fill = aboveLevel(changes, changes.change);
  const grind = aboveLevel(
    changes,
    Array.from(changes.change, (t) => -t),
  );
  let cut = 0;
  let thinMm2 = 0;
  const cutIn = material !== null && material.min <= grindMax + 1e-9;
  if (material && fill.volumeMm3 > 0) {
    const thick = aboveLevel(changes, changes.change, material.min);
    // What the layer lacks up to its least thickness, over its thin area: the least thickness times the whole area,
    // less what is filled, plus what is filled beyond the least thickness.
    thinMm2 = Math.max(0, fill.areaMm2 - thick.areaMm2);
    if (cutIn) cut = Math.max(0, material.min * fill.areaMm2 - fill.volumeMm3 + thick.volumeMm3);
  }
  const grindMm3 = grind.volumeMm3 + cut;
  const fillMm3 = fill.volumeMm3 + cut;
  const fillMinor = material ? Math.round((fillMm3 / MM3_PER_LITRE) * material.cost) : 0;
  const costMinor = Math.round((grindMm3 / MM3_PER_LITRE) * grindCost) + fillMinor;
  return { grindMm3, fillMm3, fillMinor, costMinor, thinMm2, cutIn };
}

const SQUARE_MM = 1000;
/** Squares with less of the base in them than this share are not weighed: a corner is no square metre. */
const COVERED = 0.25;

/**
 * Greatest filled mass over a square metre: squares of one metre round every point that is filled, mass over the area of
 * base within. Cutting in replaces base by filling and counts nothing here, as filling and base weigh about the same.
 */
function heaviestSquare(c: Changes, density: number): number {
  let most = 0;
  const boxes = triangleBoxes(c);
  const filled: number[] = [];
  for (let i = 0; i < c.x.length; i++) if (c.change[i]! > 0) filled.push(i);
  // Thickest first: a square whose thickest filling is below the heaviest mean so far cannot beat it.
  filled.sort((p, q) => c.change[q]! - c.change[p]! || p - q);
  for (const i of filled) {
    const [x0, y0] = [c.x[i]! - SQUARE_MM / 2, c.y[i]! - SQUARE_MM / 2];
    const [x1, y1] = [x0 + SQUARE_MM, y0 + SQUARE_MM];
    const near = boxes.near(x0, y0, x1, y1);
    if (near.every((b) => b.high <= most)) continue;
    let volume = 0;
    let area = 0;
    for (const b of near) {
      if (b.x0 >= x0 && b.x1 <= x1 && b.y0 >= y0 && b.y1 <= y1) {
        area += b.area;
        volume += b.volume;
        continue;
      }
      const inside = clipSquare(b.polygon, x0, y0, x1, y1);
      area += polygonVolume(inside.map(([x, y]) => [x, y, 1]));
      if (b.high > 0) volume += polygonVolume(clipAbove(inside, 2, 0, 1));
    }
    if (area >= COVERED * SQUARE_MM * SQUARE_MM || boxes.total < SQUARE_MM * SQUARE_MM) {
      if (area > 0) most = Math.max(most, volume / area);
    }
  }
  return most * density;
}

function clipSquare(p: Polygon, x0: number, y0: number, x1: number, y1: number): Polygon {
  return clipAbove(clipAbove(clipAbove(clipAbove(p, 0, x0, 1), 0, x1, -1), 1, y0, 1), 1, y1, -1);
}

interface Box {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
  /** Greatest change; volume of the filling over the whole triangle, and its area. */
  high: number;
  volume: number;
  area: number;
  polygon: Polygon;
}

/** Triangles by cells of the square's width, so that a square looks at its neighbourhood only. */
function triangleBoxes(c: Changes): { total: number; near(x0: number, y0: number, x1: number, y1: number): Box[] } {
  const cells = new Map<string, Box[]>();
  const cellOf = (v: number) => Math.floor(v / SQUARE_MM);
  let total = 0;
  for (let t = 0; t < c.corners.length; t += 3) {
    const polygon = [0, 1, 2].map((k): [number, number, number] => {
      const i = c.corners[t + k]!;
      return [c.x[i]!, c.y[i]!, c.change[i]!];
    });
    const xs = polygon.map((p) => p[0]);
    const ys = polygon.map((p) => p[1]);
    const high = Math.max(...polygon.map((p) => p[2]));
    const area = polygonVolume(polygon.map(([x, y]) => [x, y, 1]));
    const volume = high > 0 ? polygonVolume(clipAbove(polygon, 2, 0, 1)) : 0;
    const box = {
      x0: Math.min(...xs),
      y0: Math.min(...ys),
      x1: Math.max(...xs),
      y1: Math.max(...ys),
      high,
      volume,
      area,
      polygon,
    };
    total += area;
    for (let gx = cellOf(box.x0); gx <= cellOf(box.x1); gx++) {
      for (let gy = cellOf(box.y0); gy <= cellOf(box.y1); gy++) {
        const key = `${gx},${gy}`;
        const list = cells.get(key);
        if (list) list.push(box);
        else cells.set(key, [box]);
      }
    }
  }
  const near = (x0: number, y0: number, x1: number, y1: number) => {
    const found = new Set<Box>();
    for (let gx = cellOf(x0); gx <= cellOf(x1); gx++) {
      for (let gy = cellOf(y0); gy <= cellOf(y1); gy++) {
        for (const b of cells.get(`${gx},${gy}`) ?? []) {
          if (b.x1 > x0 && b.x0 < x1 && b.y1 > y0 && b.y0 < y1) found.add(b);
        }
      }
    }
    return [...found];
  };
  return { total, near };
}
