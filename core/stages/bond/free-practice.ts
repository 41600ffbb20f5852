import type { SetoutRecord, Span } from "../setout/record.ts";
import { jointsNear, lockedRow } from "./free-locked.ts";
import { pathJoints } from "./free-path.ts";
import { type FreeRules, isSingle, legal, spanOrder } from "./free-rows.ts";

/**
 * What fitters do: each row begins with the last row's offcut where that is long enough and keeps the stagger, whole boards
 * follow, the end is cut from a new board. Where the offcut does not do, the row begins with the longest first piece that
 * breaks no rule.
 */
export function practiceJoints(setout: SetoutRecord, rules: FreeRules): number[][] {
  const joints: number[][] = setout.spans.map(() => []);
  let offcut = 0;
  for (const s of spanOrder(setout)) {
    const span = setout.spans[s]!;
    if (isSingle(span, rules)) continue;
    const below = jointsNear(setout, span.row, joints, rules);
    const starts = [offcut, rules.lengthUm];
    for (let a = rules.lengthUm; a >= rules.minPieceUm; a -= 50_000) starts.push(a);
    let found: number[] | null = lockedRow(span, s, below, rules);
    for (const a of found === null ? starts : []) {
      found = startingWith(span, a, below, rules);
      if (found !== null) break;
    }
    joints[s] = found ?? pathJoints(span, below, rules);
    const last =
      joints[s]!.length === 0
        ? span.u1Um - span.u0Um
        : span.u1Um - joints[s]![joints[s]!.length - 1]! - Math.ceil(rules.endUm / 2);
    offcut = rules.lengthUm - last - rules.kerfUm;
  }
  return joints;
}

/** Joints of a row that begins with `a` and goes on with whole boards; null where that breaks a rule. */
export function startingWith(span: Span, a: number, below: readonly number[], rules: FreeRules): number[] | null {
  if (a < rules.minPieceUm || a > rules.lengthUm) return null;
  const half = Math.floor(rules.endUm / 2);
  const joints: number[] = [];
  let end = span.u0Um + a;
  while (end < span.u1Um) {
    const rest = span.u1Um - end - rules.endUm;
    if (rest < rules.minPieceUm) return null;
    joints.push(end + half);
    if (rest <= rules.lengthUm) break;
    end += rules.endUm + rules.lengthUm;
  }
  return joints.length > 0 && legal(span, joints, below, rules) ? joints : null;
}
