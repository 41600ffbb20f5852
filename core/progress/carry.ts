import type { PlanFile } from "../plan/plan.ts";
import type { Live } from "./change.ts";
import { PROGRESS_FORMAT, type ProgressFile } from "./schema.ts";

/**
 * The progress file of the new plan: what counts and is not yet part of the new job, under the new plan's names. Pieces
 * that lie as drawn, lines of rows that are there, gaps between such pieces, lengths at hand. Walls, levels and spoilt
 * boards are in the new job; holes belonged to clips of the old plan; what was undone stays in the old file.
 * O(events).
 */
export function carryOver(
  live: Live,
  plan: PlanFile,
  planHash: string,
  same: ReadonlyMap<string, string>,
  rowOf: ReadonlyMap<number, number>,
): ProgressFile {
  const rows = new Set(plan.rows.map((row) => row.row));
  const last = new Map(live.flatMap((event) => (event.kind === "laid" ? [[event.piece, event.id] as const] : [])));
  const events = live.flatMap((event): ProgressFile["events"] => {
    if (event.kind === "laid") {
      const piece = same.get(event.piece);
      // a piece spoilt and laid again lies once
      return piece === undefined || last.get(event.piece) !== event.id ? [] : [{ ...event, piece }];
    }
    if (event.kind === "line") {
      const row = rowOf.get(event.row);
      return row === undefined || !rows.has(row) ? [] : [{ ...event, row }];
    }
    if (event.kind === "gap") {
      const [a, b] = [same.get(event.joint[0]), same.get(event.joint[1])];
      return a === undefined || b === undefined ? [] : [{ ...event, joint: [a, b] }];
    }
    return event.kind === "offcut" ? [event] : [];
  });
  return { format: PROGRESS_FORMAT, job: plan.job, plan: planHash, events };
}
