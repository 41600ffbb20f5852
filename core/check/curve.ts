/**
 * A side of a ring as the judge sees it: points along it and, at each, the unit normal on its left. Straight sides
 * have two points; an arc is walked round its centre in equal steps (the planner halves chords instead), so that a
 * side moved by a gap is each point moved along its normal: concentric by construction.
 */
export interface Walked {
  xs: number[];
  ys: number[];
  /** Left normals at the points. */
  nx: number[];
  ny: number[];
  /** Radius where curved, positive where the centre is on the left; 0 where straight. */
  radius: number;
}

/** Chord error of the judge's own arcs, mm: well below anything it judges. */
const CHORD_MM = 0.02;

/** The side from (x0, y0) to (x1, y1); bulge = tan(a quarter of its angle), positive counter-clockwise. mm. */
export function walkSide(x0: number, y0: number, x1: number, y1: number, bulge: number): Walked {
  const dx = x1 - x0;
  const dy = y1 - y0;
  const chord = Math.sqrt(dx * dx + dy * dy) || 1e-9;
  if ((Math.abs(bulge) * chord) / 2 < 0.001) {
    const nx = -dy / chord;
    const ny = dx / chord;
    return { xs: [x0, x1], ys: [y0, y1], nx: [nx, nx], ny: [ny, ny], radius: 0 };
  }
  const offset = (1 - bulge * bulge) / (4 * bulge);
  const cx = (x0 + x1) / 2 - dy * offset;
  const cy = (y0 + y1) / 2 + dx * offset;
  const radius = ((1 + bulge * bulge) * chord) / (4 * Math.abs(bulge));
  // Quarter-angle tangent of one step, halved until a chord's sagitta (radius (1 - cos) = 2 r b^2/(1+b^2)) is small.
  let quarter = Math.abs(bulge);
  let steps = 1;
  while ((2 * radius * quarter * quarter) / (1 + quarter * quarter) > CHORD_MM && steps < 4096) {
    quarter = quarter / (1 + Math.sqrt(1 + quarter * quarter));
    steps *= 2;
  }
  const half = (2 * quarter) / (1 - quarter * quarter);
  // A half turn or more in one step cannot happen: radius is far above CHORD_MM or the side is straight.
  const cos = (1 - half * half) / (1 + half * half);
  const sin = ((2 * half) / (1 + half * half)) * (bulge > 0 ? 1 : -1);
  const sign = bulge > 0 ? 1 : -1;
  const out: Walked = { xs: [], ys: [], nx: [], ny: [], radius: sign * radius };
  let rx = x0 - cx;
  let ry = y0 - cy;
  for (let i = 0; i <= steps; i++) {
    if (i === steps) {
      rx = x1 - cx;
      ry = y1 - cy;
    }
    out.xs.push(i === 0 ? x0 : i === steps ? x1 : cx + rx);
    out.ys.push(i === 0 ? y0 : i === steps ? y1 : cy + ry);
    const length = Math.sqrt(rx * rx + ry * ry) || 1;
    out.nx.push((-sign * rx) / length);
    out.ny.push((-sign * ry) / length);
    [rx, ry] = [rx * cos - ry * sin, rx * sin + ry * cos];
  }
  return out;
}

/** A ring with bulges walked side by side. */
export function walkRing(ring: readonly (readonly [number, number, number])[]): Walked[] {
  return ring.map((from, i) => {
    const to = ring[(i + 1) % ring.length]!;
    return walkSide(from[0], from[1], to[0], to[1], from[2]);
  });
}

/** The walked ring's points, first not repeated. */
export function pointsOf(sides: readonly Walked[]): [number, number][] {
  const out: [number, number][] = [];
  for (const side of sides) for (let i = 0; i + 1 < side.xs.length; i++) out.push([side.xs[i]!, side.ys[i]!]);
  return out;
}

/** Twice the signed area of a plain ring, about its first point. */
export function twiceArea(points: readonly (readonly [number, number])[]): number {
  const [ox, oy] = points[0] ?? [0, 0];
  let sum = 0;
  for (let i = 0; i < points.length; i++) {
    const [ax, ay] = points[i]!;
    const [bx, by] = points[(i + 1) % points.length]!;
    sum += (ax - ox) * (by - oy) - (bx - ox) * (ay - oy);
  }
  return sum;
}
