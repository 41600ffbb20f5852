type Tie = readonly [from: number, to: number, mm: number];
export type Shape = [x: number, y: number][];

const BEAM = 48;
/** A misread tape must not outweigh the shape: more than this is counted as this, mm. */
const MISFIT_CAP_MM = 200;
const RELAX_STARTS = 24;
const RELAX_SWEEPS = 400;

/**
 * First guesses of a shape from its ties, best first: marks are placed one after another from two ties each, both mirror
 * images kept where nothing decides, the rest of the ties judging (a beam search). Where no mark with two ties to placed
 * ones is left, guesses are relaxed from many starts. Guesses only; the adjustment polishes them.
 */
export function firstShapes(marks: number, ties: readonly Tie[]): Shape[] {
  const near: Map<number, number>[] = Array.from({ length: marks }, () => new Map<number, number>());
  for (const [a, b, mm] of ties) {
    if (near[a]!.has(b)) continue;
    near[a]!.set(b, mm);
    near[b]!.set(a, mm);
  }
  const grown = startTriangles(near)
    .slice(0, 6)
    .flatMap((start) => grow(start, near));
  if (grown.length === 0) return relaxed(marks, ties);
  return grown.sort((p, q) => p.cost - q.cost).map(({ at }) => near.map((_, i): [number, number] => [...at.get(i)!]));
}

interface Partial {
  at: Map<number, readonly [number, number]>;
  cost: number;
}

/** Triangles of three ties, the fattest first. */
function startTriangles(near: readonly Map<number, number>[]): { marks: [number, number, number]; fat: number }[] {
  const found: { marks: [number, number, number]; fat: number }[] = [];
  for (let a = 0; a < near.length && found.length < 2000; a++) {
    for (const [b, ab] of near[a]!) {
      if (b < a) continue;
      for (const [c, ac] of near[a]!) {
        const bc = near[b]!.get(c);
        if (c < b || bc === undefined) continue;
        const s = (ab + ac + bc) / 2;
        const area2 = s * (s - ab) * (s - ac) * (s - bc);
        const longest = Math.max(ab, ac, bc);
        if (area2 > 0)
          found.push({ marks: [a, b, c], fat: (Math.sqrt(area2) / longest / longest) * Math.sqrt(Math.sqrt(area2)) });
      }
    }
  }
  return found.sort((p, q) => q.fat - p.fat);
}

function grow(start: { marks: [number, number, number] }, near: readonly Map<number, number>[]): Partial[] {
  const [a, b, c] = start.marks;
  const ab = near[a]!.get(b)!;
  const third = meetings([0, 0], near[a]!.get(c)!, [ab, 0], near[b]!.get(c)!)[0]!;
  const placed = new Set([a, b, c]);
  let beam: Partial[] = [
    {
      at: new Map([
        [a, [0, 0]],
        [b, [ab, 0]],
        [c, third],
      ]),
      cost: 0,
    },
  ];
  while (placed.size < near.length) {
    const next = mostTied(near, placed);
    if (next === null) return [];
    const known = [...near[next]!].filter(([mark]) => placed.has(mark));
    beam = beam
      .flatMap((partial) => placements(partial, known).map((xy) => withMark(partial, next, xy, known)))
      .sort((p, q) => p.cost - q.cost)
      .slice(0, BEAM);
    placed.add(next);
  }
  return beam;
}

function mostTied(near: readonly Map<number, number>[], placed: ReadonlySet<number>): number | null {
  let best: number | null = null;
  let most = 1;
  near.forEach((ties, mark) => {
    if (placed.has(mark)) return;
    let count = 0;
    for (const other of ties.keys()) if (placed.has(other)) count++;
    if (count > most) [best, most] = [mark, count];
  });
  return best;
}

/** Both places from the pair of ties that cross best, and from a second pair where there is one (the first may be misread). */
function placements(partial: Partial, known: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  const pairs: { i: number; j: number; sine: number }[] = [];
  for (let i = 0; i < known.length; i++) {
    for (let j = i + 1; j < known.length && pairs.length < 200; j++)
      pairs.push({ i, j, sine: sineAt(partial, known[i]!, known[j]!) });
  }
  pairs.sort((p, q) => q.sine - p.sine);
  return pairs.slice(0, known.length > 2 ? 3 : 1).flatMap(({ i, j }) => {
    const [m, dm] = known[i]!;
    const [k, dk] = known[j]!;
    return meetings(partial.at.get(m)!, dm, partial.at.get(k)!, dk);
  });
}

/** How squarely two ties meet at the new mark: sine of the angle between them, by the law of cosines. */
function sineAt(partial: Partial, [m, dm]: readonly [number, number], [k, dk]: readonly [number, number]): number {
  const [p, q] = [partial.at.get(m)!, partial.at.get(k)!];
  const base2 = (p[0] - q[0]) * (p[0] - q[0]) + (p[1] - q[1]) * (p[1] - q[1]);
  const cosine = (dm * dm + dk * dk - base2) / (2 * dm * dk);
  return Math.max(0, 1 - cosine * cosine);
}

/** Where two circles meet; where they do not, the point between them. */
function meetings(
  p: readonly [number, number],
  dp: number,
  q: readonly [number, number],
  dq: number,
): [number, number][] {
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  const base = Math.sqrt(dx * dx + dy * dy);
  if (base === 0) return [[p[0] + dp, p[1]]];
  const along = (dp * dp - dq * dq + base * base) / (2 * base);
  const up = Math.sqrt(Math.max(0, dp * dp - along * along));
  const [ex, ey] = [dx / base, dy / base];
  const [x, y] = [p[0] + ex * along, p[1] + ey * along];
  const left: [number, number] = [x - ey * up, y + ex * up];
  return up === 0 ? [left] : [left, [x + ey * up, y - ex * up]];
}

function withMark(
  partial: Partial,
  mark: number,
  xy: readonly [number, number],
  known: readonly (readonly [number, number])[],
): Partial {
  let cost = partial.cost;
  for (const [other, mm] of known) {
    const at = partial.at.get(other)!;
    const [dx, dy] = [at[0] - xy[0], at[1] - xy[1]];
    const off = Math.min(MISFIT_CAP_MM, Math.abs(Math.sqrt(dx * dx + dy * dy) - mm));
    cost += off * off;
  }
  return { at: new Map(partial.at).set(mark, xy), cost };
}

/** Each tie pulls its ends to its length, over and over, from starts drawn by a fixed sequence. */
function relaxed(marks: number, ties: readonly Tie[]): Shape[] {
  const reach = ties.reduce((most, [, , mm]) => Math.max(most, mm), 1);
  let state = 104_729;
  const draw = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  const shapes: { shape: Shape; cost: number }[] = [];
  for (let start = 0; start < RELAX_STARTS; start++) {
    const shape: Shape = Array.from({ length: marks }, () => [draw() * reach, draw() * reach]);
    for (let sweep = 0; sweep < RELAX_SWEEPS; sweep++) for (const one of ties) pull(shape, one);
    const cost = ties.reduce((sum, one) => sum + Math.abs(pull(shape, one)), 0);
    shapes.push({ shape, cost });
  }
  return shapes.sort((p, q) => p.cost - q.cost).map(({ shape }) => shape);
}

function pull(shape: Shape, [a, b, mm]: Tie): number {
  const [p, q] = [shape[a]!, shape[b]!];
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  const length = Math.sqrt(dx * dx + dy * dy) || 1;
  const share = (length - mm) / length / 2;
  p[0] += dx * share;
  p[1] += dy * share;
  q[0] -= dx * share;
  q[1] -= dy * share;
  return length - mm;
}
