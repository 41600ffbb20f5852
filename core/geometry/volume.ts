/** A triangulated surface: corners of triangles, and any height over each point. */
interface Surface {
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  corners: ArrayLike<number>;
}
export interface Above {
  volumeMm3: number;
  areaMm2: number;
}

/** Volume and area of the part where the height `h`, straight over each triangle, exceeds `level`. Exact but for rounding. */
export function aboveLevel(surface: Surface, h: ArrayLike<number>, level = 0): Above {
  const sum = { volumeMm3: 0, areaMm2: 0 };
  for (let t = 0; t < surface.corners.length; t += 3) {
    const a = surface.corners[t]!;
    const b = surface.corners[t + 1]!;
    const c = surface.corners[t + 2]!;
    addAbove(triangleArea(surface, a, b, c), h[a]! - level, h[b]! - level, h[c]! - level, sum);
  }
  return sum;
}

export function triangleArea(surface: { x: ArrayLike<number>; y: ArrayLike<number> }, a: number, b: number, c: number) {
  const { x, y } = surface;
  return ((x[b]! - x[a]!) * (y[c]! - y[a]!) - (x[c]! - x[a]!) * (y[b]! - y[a]!)) / 2;
}

/** Adds one triangle's part above zero, from its area and the heights over its corners. */
export function addAbove(area: number, a: number, b: number, c: number, sum: Above): void {
  const whole = (area * (a + b + c)) / 3;
  const up = (a > 0 ? 1 : 0) + (b > 0 ? 1 : 0) + (c > 0 ? 1 : 0);
  if (up === 0) return;
  if (up === 3) {
    sum.volumeMm3 += whole;
    sum.areaMm2 += area;
    return;
  }
  // One corner stands apart: the small triangle at it is cut off at a share of both its edges.
  const [p, q, r] =
    up === 1
      ? a > 0
        ? [a, b, c]
        : b > 0
          ? [b, c, a]
          : [c, a, b]
      : a <= 0
        ? [a, b, c]
        : b <= 0
          ? [b, c, a]
          : [c, a, b];
  const share = (p / (p - q)) * (p / (p - r));
  const tipVolume = (area * share * p) / 3;
  if (up === 1) {
    sum.volumeMm3 += tipVolume;
    sum.areaMm2 += area * share;
  } else {
    sum.volumeMm3 += whole - tipVolume;
    sum.areaMm2 += area * (1 - share);
  }
}
