/** A bar of some length on a profile: where it rests, and the largest gap under it between the two supports. */
export interface Rest {
  gap: number;
  from: number;
  to: number;
  at: number;
}

/**
 * Largest gap under a straightedge no longer than `length` over all its positions on a profile: `s` ascending (equal
 * neighbours allowed), height `z`, straight between. The bar rests on two high points and the gap counts only between
 * them, never under an end that stands free (DIN 18202 commentary; CSA A23.1 commentary).
 *
 * A supporting chord either starts or ends at a break of the profile, or spans the whole bar with both ends on straight
 * stretches. First kind: from each break the steepest-upward point within the length (every other chord from there lies
 * lower), to the right and, mirrored, to the left. Second kind: as the bar slides between two breaks its gap is a
 * quadratic of the position, greatest at a vertex in closed form. O(k m) for k breaks, m of them under one bar.
 */
export function largestGap(
  s: ArrayLike<number>,
  z: ArrayLike<number>,
  n: number,
  length: number,
  floor = 0,
): Rest | null {
  const best: Rest = { gap: floor, from: 0, to: 0, at: 0 };
  chordsFromBreaks(s, z, n, length, 1, best);
  chordsFromBreaks(s, z, n, length, -1, best);
  slidingBars(s, z, n, length, best);
  return best.gap > floor ? best : null;
}

function chordsFromBreaks(
  s: ArrayLike<number>,
  z: ArrayLike<number>,
  n: number,
  length: number,
  way: 1 | -1,
  best: Rest,
): void {
  const end = way === 1 ? n : -1;
  for (let i = way === 1 ? 0 : n - 1; i !== end; i += way) {
    const s0 = s[i]!;
    const z0 = z[i]!;
    let steepest = Number.NEGATIVE_INFINITY;
    let reach = 0;
    let j = i + way;
    for (; j !== end; j += way) {
      const run = (s[j]! - s0) * way;
      if (run <= 0) continue;
      if (run > length) break;
      const slope = (z[j]! - z0) / run;
      if (slope >= steepest) {
        steepest = slope;
        reach = run;
      }
    }
    // The bar may end on the stretch that runs on beyond its length.
    if (j !== end && j !== i + way) {
      const r0 = (s[j - way]! - s0) * way;
      const r1 = (s[j]! - s0) * way;
      const zEnd = z[j - way]! + ((z[j]! - z[j - way]!) * (length - r0)) / (r1 - r0);
      const slope = (zEnd - z0) / length;
      if (slope >= steepest) {
        steepest = slope;
        reach = length;
      }
    }
    for (let k = i + way; k !== end; k += way) {
      const run = (s[k]! - s0) * way;
      if (run >= reach) break;
      const gap = z0 + steepest * run - z[k]!;
      if (gap > best.gap) {
        best.gap = gap;
        best.at = s[k]!;
        best.from = way === 1 ? s0 : s0 - reach;
        best.to = way === 1 ? s0 + reach : s0;
      }
    }
  }
}

/** Bars of the full length with both ends on straight stretches: event by event as the bar slides to the right. */
function slidingBars(s: ArrayLike<number>, z: ArrayLike<number>, n: number, length: number, best: Rest): void {
  let i = 0;
  let j = 0;
  let from = s[0]!;
  while (j + 1 < n && s[j + 1]! <= from + length) j++;
  while (i + 1 < n && j + 1 < n) {
    const to = Math.min(s[i + 1]!, s[j + 1]! - length);
    if (to > from) slideBetween(s, z, i, j, from, to, length, best);
    if (s[i + 1]! <= to) i++;
    if (s[j + 1]! - length <= to) j++;
    if (to > from) from = to;
  }
}

function slideBetween(
  s: ArrayLike<number>,
  z: ArrayLike<number>,
  i: number,
  j: number,
  from: number,
  to: number,
  length: number,
  best: Rest,
): void {
  const mi = (z[i + 1]! - z[i]!) / (s[i + 1]! - s[i]!);
  const mj = (z[j + 1]! - z[j]!) / (s[j + 1]! - s[j]!);
  for (let k = i + 1; k <= j; k++) {
    // Gap over break k with the bar at a: za + (zb - za) (sk - a) / length - zk, a quadratic in a.
    const sk = s[k]!;
    const za0 = z[i]! - mi * s[i]!;
    const zb0 = z[j]! + mj * (length - s[j]!);
    const p = za0;
    const q = zb0 - za0;
    const r = mj - mi;
    const curve = -r / length;
    const linear = mi + (r * sk - q) / length;
    const steep = curve < 0 ? -linear / (2 * curve) : from;
    const a = steep > from ? Math.min(steep, to) : from;
    const gap = p + mi * a + ((q + r * a) * (sk - a)) / length - z[k]!;
    if (gap > best.gap && isBelow(s, z, i, j, a, length, za0 + mi * a, zb0 + mj * a)) {
      best.gap = gap;
      best.from = a;
      best.to = a + length;
      best.at = sk;
    }
  }
}

/** True where no break under the bar stands above it. */
function isBelow(
  s: ArrayLike<number>,
  z: ArrayLike<number>,
  i: number,
  j: number,
  a: number,
  length: number,
  za: number,
  zb: number,
): boolean {
  for (let k = i + 1; k <= j; k++) {
    if (z[k]! > za + ((zb - za) * (s[k]! - a)) / length + 1e-9) return false;
  }
  return true;
}
