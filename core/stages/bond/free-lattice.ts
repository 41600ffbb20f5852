import type { SetoutRecord, Span } from "../setout/record.ts";
import { jointsNear, lockedRow } from "./free-locked.ts";
import { pathJoints } from "./free-path.ts";
import { type FreeRules, isSingle, legal, pieceLengths, spanOrder } from "./free-rows.ts";

const PHASES = 6;

/**
 * Half bond as free joints: the lattice at a few phases, odd rows half a board on. A joint that would leave too short an end
 * piece is moved to the least; a phase that then still breaks a rule is left out. Only a span that must have a joint
 * somewhere takes its own path.
 */
export function latticeJoints(setout: SetoutRecord, rules: FreeRules): number[][][] {
  const pitch = rules.lengthUm + rules.endUm;
  const order = spanOrder(setout);
  let least = Number.POSITIVE_INFINITY;
  for (const span of setout.spans) least = Math.min(least, span.u0Um);
  const out: number[][][] = [];
  for (let phase = 0; phase < PHASES; phase++) {
    const joints: number[][] = setout.spans.map(() => []);
    let whole = true;
    for (const s of order) {
      const span = setout.spans[s]!;
      if (isSingle(span, rules)) continue;
      const below = jointsNear(setout, span.row, joints, rules);
      const fixed = lockedRow(span, s, below, rules);
      if (fixed !== null) {
        joints[s] = fixed;
        continue;
      }
      const shift =
        least + Math.round((pitch * phase) / PHASES / 1000) * 1000 + (span.row % 2 === 1 ? Math.round(pitch / 2) : 0);
      joints[s] = span.mustJoint.length > 0 ? pathJoints(span, below, rules) : latticeRow(span, shift, rules);
      whole = span.mustJoint.length > 0 || keeps(span, joints[s]!, below, rules);
      if (!whole) break;
    }
    if (whole) out.push(joints);
  }
  return out;
}

function keeps(span: Span, joints: readonly number[], below: readonly number[], rules: FreeRules): boolean {
  if (!legal(span, joints, below, rules)) return false;
  return pieceLengths(span, joints, rules.endUm).every((l) => l >= rules.minPieceUm && l <= rules.longestUm);
}

function latticeRow(span: Span, shift: number, rules: FreeRules): number[] {
  const pitch = rules.lengthUm + rules.endUm;
  const half = Math.ceil(rules.endUm / 2);
  const first = span.u0Um + rules.minPieceUm + half;
  const last = span.u1Um - rules.minPieceUm - half;
  const joints: number[] = [];
  for (let u = shift + Math.ceil((span.u0Um - shift) / pitch) * pitch; u < span.u1Um; u += pitch)
    joints.push(Math.min(Math.max(u, first), last));
  return joints;
}
