interface Level {
  xMm: number;
  yMm: number;
  zMm: number;
}
export interface RobustPlane {
  at(xMm: number, yMm: number): number;
  /** Robust standard deviation about the plane, mm. */
  scaleMm: number;
}

const TRIPLES = 300;
const SAMPLE = 600;

/**
 * The plane most readings agree on: least quantile of squares (Rousseeuw 1984) over triples drawn by a fixed sequence,
 * so that up to nearly half the readings may be wrong without pulling it. Only used to say which readings are odd;
 * the base is judged elsewhere. Null under five readings, or where they stand in one line. O(triples x sample).
 */
export function robustPlane(levels: readonly Level[]): RobustPlane | null {
  const n = levels.length;
  if (n < 5) return null;
  const step = Math.max(1, Math.floor(n / SAMPLE));
  const sample = levels.filter((_, i) => i % step === 0);
  const rank = Math.floor((sample.length + 4) / 2);
  const [x0, y0] = [levels[0]!.xMm, levels[0]!.yMm];
  const next = sequence();
  let best: { a: number; b: number; c: number; spread: number } | null = null;
  for (let t = 0; t < TRIPLES; t++) {
    const [p, q, r] = [
      sample[next() % sample.length]!,
      sample[next() % sample.length]!,
      sample[next() % sample.length]!,
    ];
    const plane = through(p, q, r, x0, y0);
    if (!plane) continue;
    const off = sample.map((one) => Math.abs(one.zMm - plane.a * (one.xMm - x0) - plane.b * (one.yMm - y0) - plane.c));
    off.sort((s, u) => s - u);
    const spread = off[Math.min(rank, off.length) - 1]!;
    if (!best || spread < best.spread) best = { ...plane, spread };
  }
  if (!best) return null;
  const { a, b, c, spread } = best;
  // 1.4826: the median of |normal| is 0.6745 standard deviations
  return { at: (x, y) => a * (x - x0) + b * (y - y0) + c, scaleMm: 1.4826 * spread };
}

function through(p: Level, q: Level, r: Level, x0: number, y0: number): { a: number; b: number; c: number } | null {
  const [qx, qy, qz] = [q.xMm - p.xMm, q.yMm - p.yMm, q.zMm - p.zMm];
  const [rx, ry, rz] = [r.xMm - p.xMm, r.yMm - p.yMm, r.zMm - p.zMm];
  const det = qx * ry - qy * rx;
  const reach = qx * qx + qy * qy + rx * rx + ry * ry;
  // three readings nearly in line say nothing about the fall across it
  if (Math.abs(det) <= 0.02 * reach) return null;
  const a = (qz * ry - qy * rz) / det;
  const b = (qx * rz - qz * rx) / det;
  return { a, b, c: p.zMm - a * (p.xMm - x0) - b * (p.yMm - y0) };
}

/** Park and Miller's minimal standard generator (1988): whole numbers, the same everywhere. */
function sequence(): () => number {
  let state = 20_251;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state;
  };
}
