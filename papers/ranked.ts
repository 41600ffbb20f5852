import type { Finding } from "../core/base/finding.ts";
import type { PlanRecord } from "../core/plan/record.ts";
import { allFindings } from "../core/plan/write.ts";

/** Findings of one kind: the first stands for all, with the number it bears on drawings and in the list of findings. */
export interface Ranked {
  number: number;
  finding: Finding;
  count: number;
}

/** Findings merged by code and level, stops first, then warnings, then notes; within a level in the job's own order. */
export function rankedFindings(record: PlanRecord): Ranked[] {
  const kinds = new Map<string, Ranked>();
  for (const [i, finding] of allFindings(record).entries()) {
    const key = `${finding.level} ${finding.code}`;
    const known = kinds.get(key);
    if (known) known.count++;
    else kinds.set(key, { number: i + 1, finding, count: 1 });
  }
  return [...kinds.values()];
}
