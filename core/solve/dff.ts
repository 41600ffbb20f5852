/** A proved least number of bins, and the dual of each item that proves it: no filling of a bin is worth above `scale`. */
export interface FunctionBound {
  bins: number;
  scale: number;
  duals: number[];
}

/**
 * Bounds by dual-feasible functions (Fekete & Schepers 2001): material x; u(eps), which is Martello & Toth's L2 (1990):
 * x > 1 - eps counts whole, x < eps counts nothing; and the rounding function U(k)(x) = floor((k + 1) x) / k where
 * (k + 1) x is not whole, else x. Sizes and capacity are whole numbers; O(n * thresholds), thresholds capped at 64.
 */
export function boundByFunctions(capacity: number, sizes: readonly number[], counts: readonly number[]): FunctionBound {
  let best: FunctionBound = rate(capacity, sizes.slice(), counts);
  const small = [...new Set(sizes.filter((s) => s * 2 <= capacity))].sort((a, b) => a - b);
  const step = Math.max(1, Math.ceil(small.length / 64));
  for (let i = 0; i < small.length; i += step) {
    const eps = small[i]!;
    best = larger(
      best,
      rate(
        capacity,
        sizes.map((s) => (s > capacity - eps ? capacity : s < eps ? 0 : s)),
        counts,
      ),
    );
  }
  // Items above one half count one, exactly half a half, smaller nothing.
  best = larger(
    best,
    rate(
      2,
      sizes.map((s) => (s * 2 > capacity ? 2 : s * 2 === capacity ? 1 : 0)),
      counts,
    ),
  );
  for (let k = 2; k <= 12; k++) {
    const scale = capacity * k;
    const duals = sizes.map((s) =>
      ((k + 1) * s) % capacity === 0 ? s * k : Math.floor(((k + 1) * s) / capacity) * capacity,
    );
    best = larger(best, rate(scale, duals, counts));
  }
  return best;
}

function rate(scale: number, duals: number[], counts: readonly number[]): FunctionBound {
  let sum = 0;
  for (let i = 0; i < duals.length; i++) sum += duals[i]! * counts[i]!;
  return { bins: Math.ceil(sum / scale), scale, duals };
}

function larger(a: FunctionBound, b: FunctionBound): FunctionBound {
  return b.bins > a.bins ? b : a;
}
