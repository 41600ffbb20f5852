/**
 * Solves the k x k system `m` x = `rhs` by elimination with partial pivoting; both are spoilt.
 * `m` is row-major. Null where a pivot falls below 1e-13 of the largest entry. O(k^3), meant for k up to about 8.
 */
export function solveSquare(m: Float64Array, rhs: Float64Array, k: number): Float64Array | null {
  let scale = 0;
  for (let i = 0; i < k * k; i++) scale = Math.max(scale, Math.abs(m[i]!));
  for (let c = 0; c < k; c++) {
    let p = c;
    for (let r = c + 1; r < k; r++) if (Math.abs(m[r * k + c]!) > Math.abs(m[p * k + c]!)) p = r;
    if (!(Math.abs(m[p * k + c]!) > 1e-13 * scale)) return null;
    if (p !== c) {
      for (let j = c; j < k; j++) [m[c * k + j], m[p * k + j]] = [m[p * k + j]!, m[c * k + j]!];
      [rhs[c], rhs[p]] = [rhs[p]!, rhs[c]!];
    }
    for (let r = c + 1; r < k; r++) {
      const f = m[r * k + c]! / m[c * k + c]!;
      if (f === 0) continue;
      for (let j = c; j < k; j++) m[r * k + j] = m[r * k + j]! - f * m[c * k + j]!;
      rhs[r] = rhs[r]! - f * rhs[c]!;
    }
  }
  for (let c = k - 1; c >= 0; c--) {
    let sum = rhs[c]!;
    for (let j = c + 1; j < k; j++) sum -= m[c * k + j]! * rhs[j]!;
    rhs[c] = sum / m[c * k + c]!;
  }
  return rhs;
}
