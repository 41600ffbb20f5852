import { LIMITS } from "../base/limits.ts";
import { nearest } from "../read/nearest.ts";
import type { JsonPath, PathProblem, Read } from "../read/problem.ts";
import { allOf, readAgainst } from "../read/read.ts";
import type { ProgressProblems } from "./problems.ts";
import { PROGRESS_FORMAT, type ProgressEvent, type ProgressFile, progressRule } from "./schema.ts";

/** Reads a progress file strictly; every problem at once, each with its line and place. */
export function readProgress(text: string, file: string): Read<ProgressFile> {
  const against = readAgainst(text, file, { format: PROGRESS_FORMAT, schema: progressRule });
  const sound = against.judged && against.paths.length === 0 && against.unlisted === 0;
  const found = sound ? checkEvents((against.value as ProgressFile).events) : [];
  const problems = allOf(against, found, file);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: against.value as ProgressFile };
}

/** Ids unique; an undo names an earlier event, once, and no undo; no piece lies twice unless it was spoilt between. O(events): nearest names are sought for no more problems than are listed. */
export function checkEvents(events: readonly ProgressEvent[]): PathProblem[] {
  const found: PathProblem[] = [];
  const tell = <C extends keyof ProgressProblems & string>(
    path: JsonPath,
    code: C,
    data: ProgressProblems[C],
  ): void => {
    found.push({ path, code, data });
  };
  const later = new Map<string, number>();
  events.forEach((event, i) => {
    const first = later.get(event.id);
    if (first === undefined) later.set(event.id, i);
    else tell(["events", i, "id"], "eventTwice", { id: event.id, first });
  });
  const seen = new Map<string, ProgressEvent>();
  const undone = new Map<string, string>();
  const laid = new Map<string, string>();
  events.forEach((event, i) => {
    if (event.kind === "undo") {
      const at = ["events", i, "event"] as const;
      const target = seen.get(event.event);
      const before = undone.get(event.event);
      if (!target && later.has(event.event)) tell(at, "undoOfLater", { event: event.event });
      else if (!target) {
        const near = found.length < LIMITS.problems ? nearest(event.event, [...seen.keys()].slice(-2000)) : null;
        tell(at, "undoOfNothing", { event: event.event, nearest: near });
      } else if (target.kind === "undo") tell(at, "undoOfUndo", { event: event.event });
      else if (before !== undefined) tell(at, "undoTwice", { event: event.event, first: before });
      else {
        undone.set(event.event, event.id);
        if (target.kind === "laid") laid.delete(target.piece);
      }
    } else if (event.kind === "laid") {
      const before = laid.get(event.piece);
      if (before === undefined) laid.set(event.piece, event.id);
      else tell(["events", i, "piece"], "laidTwice", { piece: event.piece, first: before });
    } else if (event.kind === "broken") {
      if ((event.board === undefined) === (event.piece === undefined)) tell(["events", i], "brokenWhat", {});
      // what is spoilt may be laid again
      if (event.piece !== undefined) laid.delete(event.piece);
    }
    if (!seen.has(event.id)) seen.set(event.id, event);
  });
  return found;
}
