/**
 * Seams that look alike from their datum have alike answers. A seam is known by its numbers: runs, joints and barred
 * stretches, all from the datum; they are compared one by one, the hash only finds the candidates.
 */
import type { Zone } from "./barred.ts";
import type { Seam } from "./runs.ts";
import type { SeamAnswer } from "./solve.ts";

export type Known = Map<number, { key: number[]; names: string; answer: SeamAnswer }[]>;

/** The answer for a seam: an alike one moved here, or `solve()`'s, which is kept. O(runs + zones). */
export function alikeAnswer(known: Known, seam: Seam, zones: readonly Zone[], solve: () => SeamAnswer): SeamAnswer {
  const key = keyOf(seam, zones);
  const names = zones.map((z) => `${z.why} ${z.name}`).join("\n");
  const hash = hashOf(key);
  const bucket = known.get(hash);
  const old = bucket?.find((entry) => entry.names === names && same(entry.key, key));
  if (old) return shifted(old.answer, seam.datumUm);
  const answer = solve();
  const entry = { key, names, answer: shifted(answer, -seam.datumUm) };
  if (bucket) bucket.push(entry);
  else known.set(hash, [entry]);
  return answer;
}

function keyOf(seam: Seam, zones: readonly Zone[]): number[] {
  const datum = seam.datumUm;
  const [above, below] = seam.tracks;
  const key = [above.length, below.length, seam.joints.length, seam.shortJoints.length];
  for (const run of above) key.push(run.a - datum, run.b - datum);
  for (const run of below) key.push(run.a - datum, run.b - datum);
  for (const joint of seam.joints) key.push(joint.uUm - datum, joint.track);
  for (const joint of seam.shortJoints) key.push(joint.uUm - datum, joint.track);
  for (const zone of zones) key.push(zone.lo - datum, zone.hi - datum);
  return key;
}

function hashOf(key: readonly number[]): number {
  let hash = 17;
  for (const value of key) hash = (Math.imul(hash, 31) + value) | 0;
  return hash;
}

function same(one: readonly number[], other: readonly number[]): boolean {
  if (one.length !== other.length) return false;
  for (let i = 0; i < one.length; i++) if (one[i] !== other[i]) return false;
  return true;
}

function shifted(answer: SeamAnswer, by: number): SeamAnswer {
  return {
    clips: answer.clips.map((c) => ({ uUm: c.uUm + by, playUm: c.playUm, above: c.above, below: c.below })),
    excuses: answer.excuses.map((e) => ({ ...e, fromUm: e.fromUm + by, uUm: e.uUm + by, toUm: e.toUm + by })),
  };
}
