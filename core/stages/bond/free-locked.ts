import type { SetoutRecord, Span } from "../setout/record.ts";
import { pathJoints } from "./free-path.ts";
import { type FreeLocked, type FreeRules, jointsBelow } from "./free-rows.ts";
import type { Locked } from "./locked.ts";

export function freeLocked(locked: Locked, endUm: number): FreeLocked {
  const half = Math.floor(endUm / 2);
  const middles = (of: ReadonlyMap<number, number[]>) =>
    new Map([...of].map(([key, list]) => [key, list.map((a) => a + half)]));
  return { bySpan: middles(locked.bySpan), byRow: middles(locked.byRow) };
}

/** Joints of the row below and locked joints of the row above: what a row's own joints keep the stagger to. */
export function jointsNear(
  setout: SetoutRecord,
  row: number,
  joints: readonly (readonly number[])[],
  rules: FreeRules,
): readonly number[] {
  return withAbove(jointsBelow(setout, row, joints), row, rules);
}

export function withAbove(below: readonly number[], row: number, rules: FreeRules): readonly number[] {
  const above = rules.locked?.byRow.get(row + 1);
  return above === undefined ? below : [...below, ...above].sort((a, b) => a - b);
}

/** A span's joints where some are locked: they stand, and only what one board does not reach is parted further. */
export function lockedRow(span: Span, index: number, near: readonly number[], rules: FreeRules): number[] | null {
  const fixed = rules.locked?.bySpan.get(index);
  if (fixed === undefined) return null;
  const out: number[] = [];
  let from = span.u0Um;
  for (let i = 0; i <= fixed.length; i++) {
    const joint = fixed[i];
    const to = joint === undefined ? span.u1Um : joint - Math.floor(rules.endUm / 2);
    const mustJoint = span.mustJoint.filter(
      (m) => m.from > from && m.to < to && !fixed.some((u) => u >= m.from && u <= m.to),
    );
    if (to - from > rules.longestUm || mustJoint.length > 0)
      out.push(...pathJoints({ ...span, u0Um: from, u1Um: to, mustJoint }, near, rules));
    if (joint === undefined) break;
    out.push(joint);
    from = joint + Math.ceil(rules.endUm / 2);
  }
  return out;
}
