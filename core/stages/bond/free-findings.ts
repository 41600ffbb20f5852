import type { Finding } from "../../base/finding.ts";
import { toMm } from "../../base/units.ts";
import { toSite } from "../../geometry/frame.ts";
import type { SetoutRecord, Span } from "../setout/record.ts";
import { type FreeRules, jointsBelow, nearest, pieceLengths } from "./free-rows.ts";

/** What these joints break, each at its place. */
export function freeFindings(
  setout: SetoutRecord,
  joints: readonly (readonly number[])[],
  rules: FreeRules,
): Finding[] {
  const findings: Finding[] = [];
  for (const row of setout.rows)
    for (const s of row.spans) {
      const span = setout.spans[s]!;
      if (joints[s]!.length === 0 && span.mustJoint.length === 0) continue;
      findings.push(...inSpan(setout, span, joints[s]!, jointsBelow(setout, span.row, joints), rules));
    }
  return findings;
}

function inSpan(
  setout: SetoutRecord,
  span: Span,
  joints: readonly number[],
  below: readonly number[],
  rules: FreeRules,
): Finding[] {
  const findings: Finding[] = [];
  const at = (u: number): readonly [number, number] => toSite(setout.frame, u, Math.round((span.v0Um + span.v1Um) / 2));
  const warn = (code: string, rule: string, u: number, found: number, limit: number, data: object): void => {
    findings.push({
      code,
      rule,
      level: "warn",
      at: at(u),
      found,
      limit,
      releasedBy: null,
      data: { row: span.row, ...data },
    });
  };
  let from = span.u0Um;
  const lengths = pieceLengths(span, joints, rules.endUm);
  if (joints.length > 0)
    lengths.forEach((length, k) => {
      if (length < rules.minPieceUm)
        warn("freeShortPiece", "minPiece", from + Math.round(length / 2), toMm(length), toMm(rules.minPieceUm), {
          lengthMm: toMm(length),
          leastMm: toMm(rules.minPieceUm),
        });
      from = (joints[k] ?? 0) + Math.ceil(rules.endUm / 2);
    });
  for (const joint of joints) {
    const gap = nearest(below, joint);
    if (gap < rules.staggerUm)
      warn("freeStagger", "stagger", joint, toMm(gap), toMm(rules.staggerUm), {
        foundMm: toMm(gap),
        leastMm: toMm(rules.staggerUm),
      });
    for (const bar of span.noJoint)
      if (joint > bar.from && joint < bar.to)
        warn("freeBarred", "bond", joint, toMm(joint - bar.from), 0, { atMm: toMm(joint) });
  }
  for (const must of span.mustJoint)
    if (!joints.some((j) => j >= must.from && j <= must.to))
      warn("freeMissing", "bond", Math.round((must.from + must.to) / 2), 0, 1, { name: must.name, why: must.why });
  return findings;
}
