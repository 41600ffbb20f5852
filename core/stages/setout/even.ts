import { toUm } from "../../base/units.ts";
import { rectangle } from "../../geometry/ring.ts";
import type { Job } from "../../job/job.ts";
import type { Span } from "./record.ts";

/** Ends of spans this near each other are one line, um: walls that are in line but for rounding. */
const IN_LINE_UM = 3;
/** A span longer than whole boards by no more than this gives way, um: far within an edge gap's tolerance. */
const OVER_UM = 100;

/**
 * Takes rounding out of the ends of rectangular spans, always inward: ends in line become equal, and a span that whole boards
 * fill but for a hair is made exactly that long. Cost: spans log spans.
 */
export function evenOut(spans: Span[], job: Job): void {
  const plain = spans.filter((span) => span.plain && span.noJoint.length === 0 && span.mustJoint.length === 0);
  const left = common(
    plain.map((s) => s.u0Um),
    1,
  );
  const right = common(
    plain.map((s) => s.u1Um),
    -1,
  );
  const usable = job.board.lengths.filter((l) => l.stock === null || l.stock > 0);
  const longest = Math.max(...(usable.length > 0 ? usable : job.board.lengths).map((l) => toUm(l.length)));
  const end = toUm(job.gaps.end);
  for (const span of plain) {
    const u0 = left.get(span.u0Um)!;
    let u1 = right.get(span.u1Um)!;
    const over = (u1 - u0 + end) % (longest + end);
    if (over > 0 && over <= OVER_UM && u1 - u0 > longest) u1 -= over;
    if (u0 === span.u0Um && u1 === span.u1Um) continue;
    span.u0Um = u0;
    span.u1Um = u1;
    span.region = { outer: rectangle(u0, span.v0Um, u1, span.v1Um), holes: [] };
  }
}

/** For each value the inmost of the values it is in line with; inward is up (1) or down (-1). */
function common(values: readonly number[], inward: 1 | -1): Map<number, number> {
  const sorted = [...new Set(values)].sort((a, b) => inward * (b - a));
  const out = new Map<number, number>();
  let head = Number.NaN;
  for (const value of sorted) {
    if (!(Math.abs(value - head) <= IN_LINE_UM)) head = value;
    out.set(value, head);
  }
  return out;
}
