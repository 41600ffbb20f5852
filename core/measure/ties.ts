/** Tapes between the corners of an outline: which is worth measuring next, and how a tape differs from the drawing. */
import { insideRing } from "./levels.ts";
import { distance } from "./walk.ts";

type Pt = readonly [x: number, y: number];
type Tie = readonly [from: string, to: string, mm: number];

/** The tape to measure next: sides first, then the diagonals that lie inside and tie the least tied corners; null when all are. */
export function nextTie(
  names: readonly string[],
  points: readonly Pt[],
  ties: readonly Tie[],
): [string, string] | null {
  const n = names.length;
  const tied = new Set(ties.map(([from, to]) => key(from, to)));
  for (let i = 0; i < n; i++) {
    const [a, b] = [names[i]!, names[(i + 1) % n]!];
    if (!tied.has(key(a, b))) return [a, b];
  }
  let best: { pair: [string, string]; rank: number } | null = null;
  for (let i = 0; i < n; i++)
    for (let j = i + 2; j < n; j++) {
      const [a, b] = [names[i]!, names[j]!];
      if ((i === 0 && j === n - 1) || tied.has(key(a, b))) continue;
      const count = ties.filter(([from, to]) => from === a || to === a || from === b || to === b).length;
      // while nothing holds a shape yet, the count alone decides
      const held = points.length === n;
      const outside = held && !runsInside(points, i, j) ? 1_000 : 0;
      const rank = outside + count - (held ? distance(points[i]!, points[j]!) / 1e7 : 0);
      if (!best || rank < best.rank) best = { pair: [a, b], rank };
    }
  return best?.pair ?? null;
}

/** Least count of tapes that can hold a shape of so many corners. */
export function tiesNeeded(corners: number): number {
  return 2 * corners - 3;
}

/** Replaces a tape between the same two corners, or adds it. */
export function withTie(ties: readonly Tie[], from: string, to: string, mm: number): [string, string, number][] {
  const at = ties.findIndex((tie) => key(tie[0], tie[1]) === key(from, to));
  const out = ties.map((tie): [string, string, number] => [...tie]);
  if (at < 0) out.push([from, to, mm]);
  else out[at]![2] = mm;
  return out;
}

export function key(a: string, b: string): string {
  return JSON.stringify(a < b ? [a, b] : [b, a]);
}

function runsInside(points: readonly Pt[], i: number, j: number): boolean {
  const [a, b] = [points[i]!, points[j]!];
  return [0.1, 0.3, 0.5, 0.7, 0.9].every((share) =>
    insideRing(points, [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share]),
  );
}
