/**
 * Factor of a symmetric positive definite n x n matrix, row-major, lower triangle. Null where a pivot falls below `tiny`
 * times its own diagonal entry; `at` then names the row that hangs loose. O(n^3 / 6).
 */
export function cholesky(m: Float64Array, n: number, tiny = 1e-11): { factor: Float64Array } | { at: number } {
  const l = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = m[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= l[i * n + k]! * l[j * n + k]!;
      if (i !== j) l[i * n + j] = sum / l[j * n + j]!;
      else if (sum > tiny * m[i * n + i]! && sum > 0) l[i * n + i] = Math.sqrt(sum);
      else return { at: i };
    }
  }
  return { factor: l };
}

/** Solves L L' x = b. O(n^2). */
export function solveFactored(l: Float64Array, n: number, b: Float64Array): Float64Array {
  const x = Float64Array.from(b);
  for (let i = 0; i < n; i++) {
    let sum = x[i]!;
    for (let k = 0; k < i; k++) sum -= l[i * n + k]! * x[k]!;
    x[i] = sum / l[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = x[i]!;
    for (let k = i + 1; k < n; k++) sum -= l[k * n + i]! * x[k]!;
    x[i] = sum / l[i * n + i]!;
  }
  return x;
}

/** The inverse, whole. O(n^3). */
export function invertFactored(l: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n * n);
  const unit = new Float64Array(n);
  for (let j = 0; j < n; j++) {
    unit.fill(0);
    unit[j] = 1;
    out.set(solveFactored(l, n, unit), j * n);
  }
  return out;
}
