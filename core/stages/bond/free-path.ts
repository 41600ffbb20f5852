import type { Span } from "../setout/record.ts";
import { type FreeRules, nearest } from "./free-rows.ts";

/** Cost of a breach: far above any number of pieces, so that the fewest breaches win, the graver ones last. */
const OVER_LENGTH = 1e12;
const BAR = 1e9;
const SHORT = 1e7;
const STAGGER = 1e6;
const CUT = 10;
const STEP_UM = 20_000;
/** Most places tried for a joint in one span: the step grows beyond it. */
const PLACES = 1_000;

/**
 * Joints for a span the common pattern does not fit: least cost path over places for a joint (every 20 mm, and the places
 * that rules make special), each arc a piece. No place is forbidden, so there is always an answer; what it breaks is found
 * afterwards. A piece never jumps over an interval that must have a joint unless nothing else is left.
 * O(places * places in one board's length).
 */
export function pathJoints(span: Span, below: readonly number[], rules: FreeRules): number[] {
  const places = placesOf(span, below, rules);
  const n = places.length;
  const half = Math.ceil(rules.endUm / 2);
  const cost = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
  const from = new Int32Array(n).fill(-1);
  cost[0] = 0;
  let first = 0;
  for (let j = 1; j < n; j++) {
    const end = j === n - 1 ? span.u1Um : places[j]! - half;
    const here = j === n - 1 ? 0 : placeCost(span, below, places[j]!, rules);
    while (first < j - 1 && end - places[first]! - half > rules.longestUm) first++;
    for (let i = Math.max(0, first - 1); i < j; i++) {
      if (cost[i] === Number.POSITIVE_INFINITY) continue;
      const start = i === 0 ? span.u0Um : places[i]! + half;
      const length = end - start;
      if (length <= 0) continue;
      const total =
        cost[i]! +
        here +
        pieceCost(length, rules) +
        jumped(span, i === 0 ? span.u0Um : places[i]!, j === n - 1 ? span.u1Um : places[j]!) * BAR;
      if (total < cost[j]!) {
        cost[j] = total;
        from[j] = i;
      }
    }
  }
  const joints: number[] = [];
  for (let j = from[n - 1]!; j > 0; j = from[j]!) joints.push(places[j]!);
  return joints.reverse();
}

function placesOf(span: Span, below: readonly number[], rules: FreeRules): number[] {
  const half = Math.ceil(rules.endUm / 2);
  const wanted: number[] = [];
  const length = span.u1Um - span.u0Um;
  const step = Math.max(STEP_UM, Math.ceil(length / PLACES / 1000) * 1000);
  for (let u = span.u0Um + step; u < span.u1Um; u += step) wanted.push(u);
  const pitch = rules.lengthUm + rules.endUm;
  for (let u = span.u0Um + rules.lengthUm + half; u < span.u1Um; u += pitch) wanted.push(u);
  for (let u = span.u1Um - rules.lengthUm - half; u > span.u0Um; u -= pitch) wanted.push(u);
  wanted.push(span.u0Um + rules.minPieceUm + half, span.u1Um - rules.minPieceUm - half);
  for (const must of span.mustJoint) wanted.push(must.from, must.to, Math.round((must.from + must.to) / 2));
  for (const bar of span.noJoint) wanted.push(bar.from, bar.to);
  for (const u of below) wanted.push(u - rules.staggerUm, u + rules.staggerUm);
  const inside = wanted.filter((u) => u - half > span.u0Um && u + half < span.u1Um).sort((a, b) => a - b);
  const places = [span.u0Um - half];
  for (const u of inside) if (u !== places[places.length - 1]) places.push(u);
  places.push(span.u1Um + half);
  return places;
}

function placeCost(span: Span, below: readonly number[], u: number, rules: FreeRules): number {
  let cost = 0;
  for (const bar of span.noJoint) if (u > bar.from && u < bar.to) cost += BAR;
  const gap = nearest(below, u);
  if (gap < rules.staggerUm) cost += STAGGER * (2 - gap / rules.staggerUm);
  return cost;
}

/** A piece costs a joint, a cut where it is no whole board, and a little for what it leaves of one. */
function pieceCost(length: number, rules: FreeRules): number {
  let cost = CUT;
  if (length > rules.longestUm) cost += OVER_LENGTH * (length / rules.longestUm);
  if (length < rules.minPieceUm) cost += SHORT * (2 - length / rules.minPieceUm);
  if (length !== rules.lengthUm) cost += CUT;
  return cost + Math.max(0, rules.lengthUm - length) / rules.lengthUm;
}

function jumped(span: Span, from: number, to: number): number {
  if (span.mustJoint.length === 0) return 0;
  let n = 0;
  // A joint on the border of the interval is inside it.
  for (const must of span.mustJoint) if (from < must.from && to > must.to) n++;
  return n;
}
