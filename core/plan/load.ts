import { draftJob, inFile, type JobRead, jobRead, problemsOf } from "../job/read.ts";
import type { Read } from "../read/problem.ts";
import type { SurveyRecord } from "../stages/survey/record.ts";
import { surveySite } from "../stages/survey/survey.ts";

export interface LoadedJob {
  read: JobRead;
  survey: SurveyRecord;
}

/**
 * Reads a job and measures its site, so that a file's problems come all at once: syntax, schema, contradictions and
 * geometry together. Geometry is judged on what could be read, even where other fields are wrong.
 */
export function loadJob(text: string, file: string): Read<LoadedJob> {
  const draft = draftJob(text, file);
  const surveyed = draft.pruned && surveySite(draft.pruned.job);
  const geometry = surveyed && !surveyed.ok ? inFile(draft.pruned!, surveyed.problems) : [];
  if (!surveyed?.ok || geometry.length + draft.problems.length + draft.against.problems.length > 0) {
    return { ok: false, problems: problemsOf(draft, geometry, file) };
  }
  return { ok: true, value: { read: jobRead(draft), survey: surveyed.record } };
}
