import { type Lattice, latticeJoints, nearestLattice } from "./lattice.ts";

/** A span as the joints see it; places in terms of the left piece's end (`a`), whole micrometres. */
export interface JointSpan {
  row: number;
  u0: number;
  u1: number;
  /** Closed intervals that must hold a joint, by `from`; open intervals that may not. In terms of `a`. */
  musts: readonly { from: number; to: number }[];
  bars: readonly { from: number; to: number }[];
}

/** What a broken rule costs a row, in steps no sum of lesser ones can reach; moving costs its distance in mm. */
const COST = { must: 1e12, bar: 1e10, short: 1e10, stagger: 1e8, staggerAbove: 1e7, offLattice: 1e4 };

/**
 * The joints of a span longer than a board (or with a place that must have one), ascending: the lattice where it holds,
 * else the nearest joint moved least. `below` are the joints of the row below, `above` the lattice of the row above.
 */
export function placeJoints(
  span: JointSpan,
  lattice: Lattice,
  below: readonly number[],
  above: (u0: number, u1: number) => number[],
): number[] {
  const { boardUm, endUm, minPieceUm, staggerUm } = lattice;
  const long = span.u1 - span.u0 > boardUm;
  if (!long && span.musts.length === 0) return [];
  const regular = long ? latticeJoints(lattice, span.row, span.u0, span.u1) : [];
  if (long && span.musts.length === 0) {
    const last = regular.length - 1;
    const short = regular[0]! - span.u0 < minPieceUm || span.u1 - regular[last]! - endUm < minPieceUm;
    const clear = regular.every((a) => !isBarred(span, a) && gapTo(below, a) >= staggerUm);
    if (!short && clear) return regular;
    if (clear || regular.length > 1) {
      const simple = moveEnds(span, lattice, regular, below, above);
      if (simple !== null) return simple;
    }
  }
  return cheapest(span, lattice, regular, below, above) ?? everyBoard(span, lattice);
}

export function isBarred(span: JointSpan, a: number): boolean {
  for (const bar of span.bars) if (a > bar.from && a < bar.to) return true;
  return false;
}

/** Distance from a place to the nearest of ascending places. */
export function gapTo(places: readonly number[], a: number): number {
  let lo = 0;
  let hi = places.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (places[mid]! < a) lo = mid + 1;
    else hi = mid;
  }
  const after = lo < places.length ? places[lo]! - a : Number.POSITIVE_INFINITY;
  const before = lo > 0 ? a - places[lo - 1]! : Number.POSITIVE_INFINITY;
  return Math.min(after, before);
}

/** The common case: only an outermost joint leaves too little, and moving it in by just enough breaks nothing else. */
function moveEnds(
  span: JointSpan,
  lattice: Lattice,
  regular: readonly number[],
  below: readonly number[],
  above: (u0: number, u1: number) => number[],
): number[] | null {
  const { boardUm, endUm, minPieceUm, staggerUm } = lattice;
  const out = [...regular];
  const last = out.length - 1;
  if (out[0]! < span.u0 + minPieceUm) out[0] = span.u0 + minPieceUm;
  const right = span.u1 - endUm - minPieceUm;
  if (out[last]! > right) {
    if (last === 0 && out[0]! !== regular[0]) return null;
    out[last] = right;
  }
  let from = span.u0;
  for (let i = 0; i < out.length; i++) {
    const a = out[i]!;
    const length = a - from;
    if (length < minPieceUm || length > boardUm || isBarred(span, a)) return null;
    if (gapTo(below, a) < staggerUm) return null;
    if (a !== regular[i] && gapTo(above(a - staggerUm, a + staggerUm), a) < staggerUm) return null;
    from = a + endUm;
  }
  const rest = span.u1 - from;
  return rest < minPieceUm || rest > boardUm ? null : out;
}

/** Shortest path over candidate places; null where no chain of pieces within a board's length exists among them. */
function cheapest(
  span: JointSpan,
  lattice: Lattice,
  regular: readonly number[],
  below: readonly number[],
  above: (u0: number, u1: number) => number[],
): number[] | null {
  const { boardUm, endUm } = lattice;
  const over = above(span.u0 - lattice.pitchUm, span.u1 + lattice.pitchUm);
  const places = candidates(span, lattice, regular, below, over);
  const n = places.length;
  const cost: number[] = new Array(n).fill(Number.POSITIVE_INFINITY);
  const from: number[] = new Array(n).fill(-1);
  const own = places.map((a) => placeCost(span, lattice, below, over, a));
  const long = span.u1 - span.u0 > boardUm;
  let best = long ? Number.POSITIVE_INFINITY : missed(span, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
  let bestAt = -1;
  let lowest = 0;
  for (let j = 0; j < n; j++) {
    const a = places[j]!;
    const first = a - span.u0;
    if (first > 0 && first <= boardUm) {
      cost[j] = own[j]! + pieceCost(lattice, first) + missed(span, Number.NEGATIVE_INFINITY, a);
    }
    while (lowest < j && a - places[lowest]! - endUm > boardUm) lowest++;
    for (let i = lowest; i < j; i++) {
      const length = a - places[i]! - endUm;
      if (length <= 0) break;
      const c = cost[i]! + own[j]! + pieceCost(lattice, length) + missed(span, places[i]!, a);
      if (c < cost[j]!) {
        cost[j] = c;
        from[j] = i;
      }
    }
    const rest = span.u1 - a - endUm;
    if (rest > 0 && rest <= boardUm) {
      const c = cost[j]! + pieceCost(lattice, rest) + missed(span, a, Number.POSITIVE_INFINITY);
      if (c < best) {
        best = c;
        bestAt = j;
      }
    }
  }
  if (best === Number.POSITIVE_INFINITY) return null;
  const out: number[] = [];
  for (let j = bestAt; j >= 0; j = from[j]!) out.push(places[j]!);
  return out.reverse();
}

function pieceCost(lattice: Lattice, length: number): number {
  return length >= lattice.minPieceUm ? 0 : COST.short + (lattice.minPieceUm - length);
}

/** Must-places (by `from`) that lie wholly between two neighbouring joints go without. */
function missed(span: JointSpan, a: number, b: number): number {
  const { musts } = span;
  let lo = 0;
  let hi = musts.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (musts[mid]!.from > a) hi = mid;
    else lo = mid + 1;
  }
  let cost = 0;
  for (let i = lo; i < musts.length && musts[i]!.from < b; i++) if (musts[i]!.to < b) cost += COST.must;
  return cost;
}

function placeCost(
  span: JointSpan,
  lattice: Lattice,
  below: readonly number[],
  over: readonly number[],
  a: number,
): number {
  let cost = 0;
  if (isBarred(span, a)) cost += COST.bar;
  const under = gapTo(below, a);
  if (under < lattice.staggerUm) cost += COST.stagger * (2 - under / lattice.staggerUm);
  const off = Math.abs(a - nearestLattice(lattice, span.row, a));
  if (off > 0) {
    cost += COST.offLattice + off / 1000;
    if (gapTo(over, a) < lattice.staggerUm) cost += COST.staggerAbove;
  }
  return cost;
}

function candidates(
  span: JointSpan,
  lattice: Lattice,
  regular: readonly number[],
  below: readonly number[],
  over: readonly number[],
): number[] {
  const { endUm, minPieceUm, pitchUm, staggerUm } = lattice;
  const out = new Set<number>();
  const add = (a: number) => {
    if (a > span.u0 && a < span.u1 - endUm) out.add(Math.round(a));
  };
  // With many posts in a row each needs whole boards only to its neighbours.
  const reach = span.musts.length + span.bars.length > 6 ? 2 * pitchUm : span.u1 - span.u0;
  const chain = (a: number) => {
    for (let k = a; k > span.u0 && k >= a - reach; k -= pitchUm) add(k);
    for (let k = a + pitchUm; k < span.u1 && k <= a + reach; k += pitchUm) add(k);
    add(a + minPieceUm + endUm);
    add(a - minPieceUm - endUm);
  };
  const bound = span.musts.length + span.bars.length > 0;
  for (const a of regular) {
    add(a);
    if (!bound) continue;
    add(a + minPieceUm + endUm);
    add(a - minPieceUm - endUm);
  }
  chain(span.u0 + minPieceUm);
  chain(span.u1 - endUm - minPieceUm);
  for (const must of span.musts) {
    chain(Math.ceil(must.from));
    chain(Math.floor(must.to));
    add((must.from + must.to) / 2);
  }
  for (const bar of span.bars) {
    chain(Math.floor(bar.from));
    chain(Math.ceil(bar.to));
  }
  for (const a of [...below, ...over]) {
    if (a < span.u0 - pitchUm || a > span.u1 + pitchUm) continue;
    add(a + staggerUm);
    add(a - staggerUm);
  }
  return [...out].sort((a, b) => a - b);
}

/** Never reached on the lattice's own candidates; still, whole boards from the left always make a row. */
function everyBoard(span: JointSpan, lattice: Lattice): number[] {
  const out: number[] = [];
  for (let a = span.u0 + lattice.boardUm; a + lattice.endUm < span.u1; a += lattice.pitchUm) out.push(a);
  return out;
}
