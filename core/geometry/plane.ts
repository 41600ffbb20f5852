import { degreesOf } from "./direction.ts";

/** z = a x + b y + c, mm. */
export interface PlaneAbc {
  a: number;
  b: number;
  c: number;
}
/** A plane with its slope in % and the direction of downhill in degrees counter-clockwise from +x (0 where level). */
export interface FallingPlane extends PlaneAbc {
  fall: number;
  towards: number;
}

/** Below this slope (in %) a plane counts as level: a thousandth of a millimetre over ten metres. */
const LEVEL_PERCENT = 1e-5;

export function planeOf(a: number, b: number, c: number): FallingPlane {
  const fall = 100 * Math.sqrt(a * a + b * b);
  if (fall < LEVEL_PERCENT) return { a: a + 0, b: b + 0, c: c + 0, fall: fall + 0, towards: 0 };
  return { a: a + 0, b: b + 0, c: c + 0, fall, towards: degreesOf(-a + 0, -b + 0) };
}

export function heightOn(plane: PlaneAbc, x: number, y: number): number {
  return plane.a * x + plane.b * y + plane.c;
}

/** Running sums of points for a least-squares plane; add, subtract and solve in constant time. Offsets keep digits. */
export interface PlaneSums {
  n: number;
  x: number;
  y: number;
  z: number;
  xx: number;
  xy: number;
  yy: number;
  xz: number;
  yz: number;
  zz: number;
}

export function emptySums(): PlaneSums {
  return { n: 0, x: 0, y: 0, z: 0, xx: 0, xy: 0, yy: 0, xz: 0, yz: 0, zz: 0 };
}

export function addPoint(s: PlaneSums, x: number, y: number, z: number): void {
  s.n += 1;
  s.x += x;
  s.y += y;
  s.z += z;
  s.xx += x * x;
  s.xy += x * y;
  s.yy += y * y;
  s.xz += x * z;
  s.yz += y * z;
  s.zz += z * z;
}

export function subtractSums(all: PlaneSums, part: PlaneSums): PlaneSums {
  return {
    n: all.n - part.n,
    x: all.x - part.x,
    y: all.y - part.y,
    z: all.z - part.z,
    xx: all.xx - part.xx,
    xy: all.xy - part.xy,
    yy: all.yy - part.yy,
    xz: all.xz - part.xz,
    yz: all.yz - part.yz,
    zz: all.zz - part.zz,
  };
}

/**
 * Least-squares plane (vertical distances) of summed points and its sum of squared residuals.
 * Null where the points do not span a plane: fewer than three, or all within a millionth of one line.
 */
export function solvePlane(s: PlaneSums): (PlaneAbc & { squares: number }) | null {
  if (s.n < 3) return null;
  const mx = s.x / s.n;
  const my = s.y / s.n;
  const mz = s.z / s.n;
  const xx = s.xx - s.x * mx;
  const xy = s.xy - s.x * my;
  const yy = s.yy - s.y * my;
  const xz = s.xz - s.x * mz;
  const yz = s.yz - s.y * mz;
  const zz = s.zz - s.z * mz;
  const det = xx * yy - xy * xy;
  if (!(det > 1e-12 * (xx + yy) * (xx + yy))) return null;
  const a = (xz * yy - yz * xy) / det;
  const b = (yz * xx - xz * xy) / det;
  const squares = zz - a * xz - b * yz;
  return { a, b, c: mz - a * mx - b * my, squares: Math.max(squares, 0) };
}

/** Least-squares plane of points; sums are taken about the first point's neighbourhood. Null as in `solvePlane`. */
export function fitPlane(points: readonly (readonly [number, number, number])[]): FallingPlane | null {
  if (points.length < 3) return null;
  const [ox, oy, oz] = points[0]!;
  const sums = emptySums();
  for (const [x, y, z] of points) addPoint(sums, x - ox, y - oy, z - oz);
  const plane = solvePlane(sums);
  if (!plane) return null;
  return planeOf(plane.a, plane.b, plane.c + oz - plane.a * ox - plane.b * oy);
}
