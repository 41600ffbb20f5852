import type { SetoutRecord, Span } from "../setout/record.ts";
import { lockedRow, withAbove } from "./free-locked.ts";
import { pathJoints } from "./free-path.ts";
import { startingWith } from "./free-practice.ts";
import { type FreeRules, isSingle, nearest, pieceLengths, spanOrder } from "./free-rows.ts";

export interface BeamLimits {
  /** States kept after each span. */
  width: number;
  /** Of these, at most so many with the same first piece. */
  alike: number;
  /** Offcuts kept at one time. */
  pool: number;
}

interface State {
  parent: State | null;
  span: number;
  joints: readonly number[];
  /** Offcuts at hand, ascending. */
  pool: readonly number[];
  /** Lost so far: scrap and a little for each cut. */
  lost: number;
  /** Joints of this row so far and of the row below, ascending. */
  here: readonly number[];
  below: readonly number[];
  row: number;
  score: number;
}

/** A saw cut counts as much as so much scrap, and an offcut kept as so much: both break ties, no more. */
const CUT_UM = 2_000;
const KEPT_UM = 4_000;
const LAST_SPANS = 10;
/** A joint too near the row below's, or one that leaves the next row no place where it must have a joint. */
const BREACH_UM = 1e12;
/** Most different paths looked for in one span. */
const PATHS = 8;

/**
 * Beam search over (pile of offcuts x first piece of the row): rows are laid one after another, whole boards between a first
 * and a last piece that come from the pile or from new boards. Returns the joints of the best states, best first.
 * Cost: spans * width * starts; every limit counts steps.
 */
export function beamJoints(setout: SetoutRecord, rules: FreeRules, limits: BeamLimits): number[][][] {
  const order = spanOrder(setout);
  let states: State[] = [
    { parent: null, span: -1, joints: [], pool: [], lost: 0, here: [], below: [], row: -1, score: 0 },
  ];
  for (let k = 0; k < order.length; k++) {
    const span = setout.spans[order[k]!]!;
    const left = order.length - 1 - k;
    const next: State[] = [];
    // States often share the row below: its path is found once.
    const paths = new Map<string, number[]>();
    for (const state of states) extend(setout, state, order[k]!, span, rules, limits, left, paths, next);
    states = best(next, limits);
  }
  return states.slice(0, 6).map((state) => jointsOf(setout, state));
}

function extend(
  setout: SetoutRecord,
  state: State,
  index: number,
  span: Span,
  rules: FreeRules,
  limits: BeamLimits,
  left: number,
  paths: Map<string, number[]>,
  out: State[],
): void {
  const sameRow = state.row === span.row;
  const below = sameRow ? state.below : state.row === span.row - 1 ? state.here : [];
  const here = sameRow ? state.here : [];
  const put = (joints: readonly number[], breaches: number): void => {
    const toll = (breaches + blocked(setout, span.row + 1, joints, rules)) * BREACH_UM;
    const made = cutFrom(state.pool, pieceLengths(span, joints, rules.endUm), rules, limits.pool);
    for (const { pool, lost } of made) {
      const total = state.lost + lost + toll;
      out.push({
        parent: state,
        span: index,
        joints,
        pool,
        lost: total,
        here: joints.length === 0 ? here : [...here, ...joints],
        below,
        row: span.row,
        score: total + kept(pool, left),
      });
    }
  };
  if (isSingle(span, rules)) {
    put([], 0);
    return;
  }
  const near = withAbove(below, span.row, rules);
  const fixed = lockedRow(span, index, near, rules);
  if (fixed !== null) {
    put(fixed, 0);
    return;
  }
  let any = false;
  for (const a of startsOf(state, span, near, rules)) {
    const joints = startingWith(span, a, near, rules);
    if (joints === null) continue;
    any = true;
    put(joints, 0);
  }
  if (any) return;
  const key = near.join(",");
  if (paths.size >= PATHS && !paths.has(key) && out.length > 0) return;
  const joints = paths.get(key) ?? pathJoints(span, near, rules);
  paths.set(key, joints);
  put(joints, joints.filter((u) => nearest(near, u) < rules.staggerUm).length);
}

/** Places of the next row that must have a joint and that these joints leave none for. */
function blocked(setout: SetoutRecord, row: number, joints: readonly number[], rules: FreeRules): number {
  const next = setout.rows[row];
  if (next === undefined || joints.length === 0) return 0;
  let n = 0;
  for (const s of next.spans)
    for (const must of setout.spans[s]!.mustJoint) {
      // Free places begin at the interval's start or just past a joint's reach.
      const starts = [must.from, ...joints.map((u) => u + rules.staggerUm)].filter(
        (u) => u >= must.from && u <= must.to,
      );
      if (!starts.some((u) => nearest(joints, u) >= rules.staggerUm)) n++;
    }
  return n;
}

/** What the pile costs: little while there are rows to use it, all of it when the last is laid. */
function kept(pool: readonly number[], left: number): number {
  let sum = 0;
  for (const p of pool) sum += p;
  return pool.length * KEPT_UM + (left >= LAST_SPANS ? 0 : (sum * (LAST_SPANS - left)) / LAST_SPANS);
}

/** First pieces worth trying: what uses an offcut whole at either end, whole boards, halves, what just keeps a rule, and a few even steps. */
function startsOf(state: State, span: Span, below: readonly number[], rules: FreeRules): number[] {
  const { lengthUm: L, endUm: e, kerfUm: k, minPieceUm: least, staggerUm } = rules;
  const starts = new Set<number>();
  const s = span.u1Um - span.u0Um;
  for (let both = s - e; both >= 2 * least; both -= L + e) {
    if (both > 2 * L) continue;
    const low = Math.max(least, both - L);
    const high = Math.min(L, both - least);
    if (low > high) continue;
    const add = (a: number): void => {
      const whole = Math.round(a / 1000) * 1000;
      if (whole >= low && whole <= high) starts.add(whole);
      else if (a >= low && a <= high) starts.add(a);
    };
    starts.add(low);
    starts.add(high);
    for (const p of state.pool) {
      if (p >= low && p <= high) starts.add(p);
      if (both - p >= low && both - p <= high) starts.add(both - p);
      add((p - k) / 2);
    }
    add(both / 2);
    add((L - k) / 2);
    add(both - (L - k) / 2);
    add((L - 2 * k) / 3);
    add(L - k - least);
    add(both - (L - k - least));
    for (const joint of below) {
      if (joint > span.u0Um + 2 * L) break;
      for (const edge of [joint - staggerUm, joint + staggerUm]) {
        let a = edge - Math.floor(e / 2) - span.u0Um;
        if (a > high) a -= L + e;
        if (a < low) a += L + e;
        if (a >= low && a <= high) starts.add(a);
      }
    }
    for (let i = 1; i <= 5; i++) add(low + ((high - low) * i) / 6);
  }
  return [...starts];
}

/**
 * Pieces cut from the pile or from new boards, longest first: the closest offcut that is long enough. Where that leaves
 * scrap, a second answer takes new boards instead. Rests shorter than the least piece are lost.
 */
function cutFrom(
  pool: readonly number[],
  pieces: readonly number[],
  rules: FreeRules,
  most: number,
): { pool: readonly number[]; lost: number }[] {
  const cut = pieces.filter((p) => p !== rules.lengthUm).sort((a, b) => b - a);
  if (cut.length === 0) return [{ pool, lost: 0 }];
  const thrifty = takeAll(pool, cut, rules, most, Number.POSITIVE_INFINITY);
  if (thrifty.scrapFromPool === 0) return [thrifty];
  return [thrifty, takeAll(pool, cut, rules, most, 0)];
}

function takeAll(
  pool: readonly number[],
  cut: readonly number[],
  rules: FreeRules,
  most: number,
  scrapAllowed: number,
): { pool: readonly number[]; lost: number; scrapFromPool: number } {
  const now = pool.slice();
  let lost = 0;
  let scrapFromPool = 0;
  for (const piece of cut) {
    const at = now.findIndex((p) => p >= piece);
    const rest = at < 0 ? 0 : now[at]! - piece - rules.kerfUm;
    const scrap = at < 0 || now[at] === piece || rest >= rules.minPieceUm ? 0 : now[at]! - piece;
    let from = Math.max(rules.lengthUm, piece);
    if (at >= 0 && scrap <= scrapAllowed) {
      from = now[at]!;
      now.splice(at, 1);
      scrapFromPool += scrap;
    }
    if (from === piece) continue;
    lost += CUT_UM;
    const over = from - piece - rules.kerfUm;
    if (over < rules.minPieceUm) lost += from - piece;
    else {
      lost += rules.kerfUm;
      insert(now, over);
    }
  }
  while (now.length > most) lost += now.shift()!;
  return { pool: now, lost, scrapFromPool };
}

function insert(sorted: number[], value: number): void {
  let at = sorted.length;
  while (at > 0 && sorted[at - 1]! > value) at--;
  sorted.splice(at, 0, value);
}

/** The best states, no two with the same pile and joints, few with the same first piece. */
function best(states: State[], limits: BeamLimits): State[] {
  states.sort((a, b) => a.score - b.score);
  const kept: State[] = [];
  const seen = new Set<string>();
  const firsts = new Map<number, number>();
  for (const state of states) {
    if (kept.length >= limits.width) break;
    const first = state.joints[0] ?? 0;
    const n = firsts.get(first) ?? 0;
    if (n >= limits.alike && state.joints.length > 0) continue;
    const key = `${first}/${state.joints.length}/${state.pool.join(",")}`;
    if (seen.has(key)) continue;
    seen.add(key);
    firsts.set(first, n + 1);
    kept.push(state);
  }
  return kept;
}

function jointsOf(setout: SetoutRecord, state: State): number[][] {
  const joints: number[][] = setout.spans.map(() => []);
  for (let at: State | null = state; at !== null && at.span >= 0; at = at.parent) joints[at.span] = at.joints.slice();
  return joints;
}
