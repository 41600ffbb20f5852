import { bodyOf, freePoints, stretch, tieUp } from "../../solve/rigid.ts";
import type { SiteProblem } from "./ring.ts";

type Tie = readonly [from: string, to: string, mm: number];
/** Ties from which the largest body is looked for: enough for any net a tape can make in a day. */
const STARTS = 60;

/**
 * Marks that hang loose, each with a tie to measure that would hold it; empty where the ties hold the shape.
 * One problem a missing tie, chosen so that all of them together are enough.
 */
export function looseMarks(marks: readonly string[], ties: readonly Tie[]): SiteProblem[] {
  const n = marks.length;
  const index = new Map(marks.map((mark, i) => [mark, i]));
  const free = freePoints(n);
  const pairs = ties.map(([from, to]) => [index.get(from)!, index.get(to)!] as const);
  for (const [a, b] of pairs) tieUp(free, a, b);
  const problems: SiteProblem[] = [];
  const tied = new Set(pairs.map(([a, b]) => `${Math.min(a, b)},${Math.max(a, b)}`));
  while (free.motions.length > 3) {
    const body = largestBody(free, pairs, n);
    const [loose, to] = missingTie(free, body, tied, n);
    const count = pairs.filter(([a, b]) => a === loose || b === loose).length;
    const data = { mark: marks[loose]!, from: marks[loose]!, to: marks[to]!, ties: count };
    problems.push({ path: ["survey", "ties"], code: "looseMark", data });
    tieUp(free, loose, to);
    tied.add(`${Math.min(loose, to)},${Math.max(loose, to)}`);
  }
  return problems;
}

type Free = ReturnType<typeof freePoints>;

function largestBody(free: Free, pairs: readonly (readonly [number, number])[], n: number): number[] {
  let best: number[] = n > 0 ? [0] : [];
  for (const [a, b] of pairs.slice(0, STARTS)) {
    if (best.length > n / 2) break;
    const body = bodyOf(free, a, b);
    if (body.length > best.length) best = body;
  }
  return best;
}

/** A loose mark and the mark of the body farthest round the ring from it (a diagonal holds better than a side). */
function missingTie(
  free: Free,
  body: readonly number[],
  tied: ReadonlySet<string>,
  n: number,
): [loose: number, to: number] {
  const held = new Set(body);
  const useful = (a: number, b: number): boolean =>
    !tied.has(`${Math.min(a, b)},${Math.max(a, b)}`) && stretch(free, a, b).some((rate) => Math.abs(rate) > 1e-7);
  const away = (a: number, b: number): number => Math.min((a - b + n) % n, (b - a + n) % n);
  for (let loose = 0; loose < n; loose++) {
    if (held.has(loose)) continue;
    const to = [...body]
      .filter((one) => useful(loose, one))
      .sort((a, b) => away(loose, b) - away(loose, a) || a - b)[0];
    if (to !== undefined) return [loose, to];
  }
  for (let a = 0; a < n; a++) for (let b = a + 1; b < n; b++) if (useful(a, b)) return [a, b];
  return [0, Math.min(1, n - 1)];
}
