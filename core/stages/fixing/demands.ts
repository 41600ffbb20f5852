/**
 * What a seam asks for, freed beforehand of what is barred by itself: a demand none of whose places is allowed is
 * replaced by the next best the rules know, and the place is named. What remains can still clash; `solve.ts` sees to that.
 */
import { freeOf, type Interval, joinIntervals, mostPoints } from "../../solve/intervals.ts";
import type { Zone } from "./barred.ts";
import type { ClipRules } from "./rules.ts";
import type { Run, Seam } from "./runs.ts";

export type ExcuseCode = "clips" | "clipEnd" | "clipSpacing" | "jointClip";
/** A clip rule that cannot hold at a place; `because` names what bars it ("clash": other clips). */
export interface Excuse {
  code: ExcuseCode;
  /** Track of the run it speaks of: 0 the row above the seam, 1 the row below. */
  track: 0 | 1;
  /** The place, and the stretch that falls short. */
  uUm: number;
  fromUm: number;
  toUm: number;
  found: number | null;
  limit: number | null;
  because: Zone["why"] | "clash" | "short";
  name: string;
}
/** A stretch that needs a clip. A joint's own place may fall back to one clip for each end. */
export interface Window extends Interval {
  jointUm: number;
  track: 0 | 1;
  fallback: Window[];
}
export interface Demands {
  seam: Seam;
  tracks: [Run[], Run[]];
  windows: Window[];
  allowed: Interval[];
  zones: Zone[];
  excuses: Excuse[];
}

export function demandsOf(seam: Seam, zones: Zone[], rules: ClipRules): Demands {
  const all = [...seam.tracks[0], ...seam.tracks[1]];
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.NEGATIVE_INFINITY;
  for (const run of all) {
    if (run.lo < lo) lo = run.lo;
    if (run.hi > hi) hi = run.hi;
  }
  const barred = joinIntervals(zones);
  const out: Demands = {
    seam,
    tracks: [[], []],
    windows: [],
    allowed: all.length ? freeOf(lo, hi, barred) : [],
    zones,
    excuses: [],
  };
  for (const track of [0, 1] as const) {
    let from = 0;
    for (const run of seam.tracks[track]) {
      while (from < barred.length && barred[from]!.hi < run.lo) from++;
      const clear = from >= barred.length || barred[from]!.lo > run.hi;
      const fits = Math.floor((run.hi - run.lo) / rules.length) + 1;
      if (run.need === 0 || (clear && fits >= run.need)) out.tracks[track].push(run);
      else out.tracks[track].push(...freedRun(run, track, barred, from, out, rules));
    }
  }
  for (const { uUm, track, left, right } of seam.joints) {
    const fallback = besideJoint(uUm, track, left, right, rules);
    demandWindow({ lo: uUm - rules.grip, hi: uUm + rules.grip, jointUm: uUm, track, fallback }, barred, out);
  }
  for (const { uUm, track, left, right } of seam.shortJoints) {
    for (const window of besideJoint(uUm, track, left, right, rules)) demandWindow(window, barred, out);
    const at = { uUm, fromUm: uUm, toUm: uUm };
    out.excuses.push({ code: "jointClip", track, ...at, found: null, limit: null, because: "short", name: "" });
  }
  return out;
}

/** One clip for each end of a joint, within two clip lengths. */
function besideJoint(uUm: number, track: 0 | 1, left: Run | null, right: Run | null, rules: ClipRules): Window[] {
  const reach = 2 * rules.length;
  const out: Window[] = [];
  if (left) out.push({ lo: Math.max(left.a, uUm - reach), hi: left.b, jointUm: uUm, track, fallback: [] });
  if (right) out.push({ lo: right.a, hi: Math.min(right.b, uUm + reach), jointUm: uUm, track, fallback: [] });
  return out;
}

/** Adds a window, or its fallback where it is barred altogether, or the excuse. */
export function demandWindow(window: Window, barred: readonly Interval[], out: Demands): void {
  if (freeOf(window.lo, window.hi, barred).length > 0) {
    if (!out.windows.some((w) => w.lo === window.lo && w.hi === window.hi)) out.windows.push(window);
  } else refuseWindow(window, barred, out);
}

/** A window that cannot be served: one clip for each end instead, where the joint has not come to that yet. */
export function refuseWindow(window: Window, barred: readonly Interval[], out: Demands): void {
  if (window.fallback.length > 0) {
    for (const next of window.fallback) demandWindow(next, barred, out);
    return;
  }
  const same = out.excuses.some((e) => e.code === "jointClip" && e.uUm === window.jointUm);
  if (!same) out.excuses.push(excuse(out, "jointClip", window.track, window.jointUm, window.jointUm, null, null));
}

/** An excuse over a stretch, with what bars it there. */
export function excuse(
  out: Demands,
  code: ExcuseCode,
  track: 0 | 1,
  fromUm: number,
  toUm: number,
  found: number | null,
  limit: number | null,
): Excuse {
  const uUm = Math.round((fromUm + toUm) / 2);
  let best: Zone | null = null;
  let far = Number.POSITIVE_INFINITY;
  for (const zone of out.zones) {
    const away = Math.max(zone.lo - uUm, uUm - zone.hi, 0);
    if (away < far) {
      best = zone;
      far = away;
    }
  }
  const near = best !== null && far < 500_000;
  return {
    code,
    track,
    uUm,
    fromUm,
    toUm,
    found,
    limit,
    because: near ? best!.why : "clash",
    name: near ? best!.name : "",
  };
}

/** The run as it can be served: fewer clips, later ends, or in parts on both sides of a place too long barred. */
function freedRun(
  run: Run,
  track: 0 | 1,
  barred: readonly Interval[],
  from: number,
  out: Demands,
  rules: ClipRules,
): Run[] {
  const free = freeOf(run.lo, run.hi, from > 0 ? barred.slice(from) : barred);
  const fits = mostPoints(free, rules.length, run.need);
  if (fits < run.need) out.excuses.push(excuse(out, "clips", track, run.a, run.b, fits, run.need));
  if (fits === 0) return [{ ...run, need: 0 }];
  const kept = { ...run, need: Math.min(run.need, fits) };
  const first = free[0]!.lo;
  const last = free[free.length - 1]!.hi;
  const alone = run.openAlone - run.a;
  // Beyond what is barred the nearest clip leaves no room for another between.
  const reach = rules.length;
  // What holds in either case, under a neighbour's row or alone.
  const sure = Math.min(run.openAlone, run.openSeam) - run.a;
  if (first > run.a + sure && !startsWithin(free, run, track, out.seam, rules, true)) {
    out.excuses.push(
      excuse(out, "clipEnd", track, run.a, run.a, first - run.a, first > run.openSeam ? run.openSeam - run.a : alone),
    );
    kept.openSeam = first + reach;
    kept.openAlone = first + reach;
  }
  if (last < run.b - sure && !startsWithin(free, run, track, out.seam, rules, false)) {
    out.excuses.push(
      excuse(out, "clipEnd", track, run.b, run.b, run.b - last, last < run.closeSeam ? run.b - run.closeSeam : alone),
    );
    kept.closeSeam = last - reach;
    kept.closeAlone = last - reach;
  }
  const parts: Run[] = [kept];
  for (let i = 0; i + 1 < free.length; i++) {
    const g0 = free[i]!.hi;
    const g1 = free[i + 1]!.lo;
    if (g1 - g0 <= rules.most || g0 >= Math.min(run.closeSeam, run.closeAlone)) continue;
    if (g1 <= Math.max(run.openSeam, run.openAlone)) continue;
    const whole = parts.pop()!;
    out.excuses.push(excuse(out, "clipSpacing", track, g0, g1, g1 - g0, rules.most));
    parts.push({ ...whole, hi: g0, need: 1, closeSeam: g0 - reach, closeAlone: g0 - reach });
    parts.push({ ...whole, lo: g1, need: 1, openSeam: g1 + reach, openAlone: g1 + reach });
  }
  return parts;
}

/** Is there an allowed place for the run's first (last) clip, with the reach that holds where it stands? */
function startsWithin(
  free: readonly Interval[],
  run: Run,
  track: 0 | 1,
  seam: Seam,
  rules: ClipRules,
  first: boolean,
): boolean {
  const other = seam.tracks[track === 0 ? 1 : 0];
  const seamLo = first ? run.lo : run.b - rules.endMax;
  const seamHi = first ? run.a + rules.endMax : run.hi;
  const aloneLo = first ? run.lo : run.b - rules.startEndMax;
  const aloneHi = first ? run.a + rules.startEndMax : run.hi;
  for (const part of free) {
    if (
      part.lo <= aloneHi &&
      part.hi >= aloneLo &&
      !coveredBy(other, Math.max(part.lo, aloneLo), Math.min(part.hi, aloneHi))
    )
      return true;
    const lo = Math.max(part.lo, seamLo);
    const hi = Math.min(part.hi, seamHi);
    if (lo <= hi && other.some((r) => r.lo <= hi && r.hi >= lo)) return true;
  }
  return false;
}

function coveredBy(runs: readonly Run[], lo: number, hi: number): boolean {
  return runs.some((r) => r.lo <= lo && r.hi >= hi);
}
