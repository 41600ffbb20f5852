import type { TextPlace } from "../read/locate.ts";
import type { JsonPath, PathProblem, Problem, Read } from "../read/problem.ts";
import { type Against, allOf, readAgainst } from "../read/read.ts";
import { checkJob } from "./checks.ts";
import { hashJson } from "./hash.ts";
import type { Job } from "./job.ts";
import { JOB_MIGRATIONS, migrateFormat } from "./migrate.ts";
import { normaliseJob } from "./normalise.ts";
import { type Pruned, pruneJob } from "./prune.ts";
import { JOB_FORMAT, jobRule } from "./schema.ts";

export interface JobRead {
  job: Job;
  /** The value as it stands in the file. */
  raw: unknown;
  /** Lower-case hex SHA-256 of the RFC 8785 form of `raw`. */
  hash: string;
  defaultsUsed: string[];
  /** Line and column of a path in the file, 1-based. */
  locate(path: JsonPath): TextPlace;
}
/** A job read as far as it can be, so that later checks can add what they find before anyone is told. */
export interface JobDraft {
  against: Against;
  /** What could be read, with the faulty parts left out; null where nothing can be said. */
  pruned: Pruned | null;
  problems: PathProblem[];
}

const JOB = { format: JOB_FORMAT, schema: jobRule, migrate: migrateFormat(JOB_MIGRATIONS, "rowline/job", 1) };

/** Reads a job file strictly; every problem at once, each with its line and place. `file` names it in the problems. */
export function readJob(text: string, file: string): Read<JobRead> {
  const draft = draftJob(text, file);
  return draft.problems.length + draft.against.problems.length > 0
    ? { ok: false, problems: problemsOf(draft, [], file) }
    : { ok: true, value: jobRead(draft) };
}

/** The first half of `readJob`: what was read and what is wrong with it, nothing decided yet. */
export function draftJob(text: string, file: string): JobDraft {
  const against = readAgainst(text, file, JOB);
  if (!against.judged) return { against, pruned: null, problems: [] };
  // with more problems than are listed, not every faulty part is known
  const pruned = against.unlisted > 0 ? null : pruneJob(against.value, against.paths);
  const found = pruned ? checkJob(pruned.job, against.paths.length > 0) : [];
  return { against, pruned, problems: pruned ? inFile(pruned, found) : [] };
}

/** Problems found in a pruned job as they stand in the file; what concerns a part taken out is dropped. */
export function inFile(pruned: Pruned, found: readonly PathProblem[]): PathProblem[] {
  return found.map(pruned.restore).filter((one) => !pruned.dropped(one.path));
}

/** Every problem of a draft and of those who looked at it since, in the order of the file. */
export function problemsOf(draft: JobDraft, more: readonly PathProblem[], file: string): Problem[] {
  return allOf(draft.against, [...draft.problems, ...more], file);
}

/** The job of a draft without a problem. */
export function jobRead(draft: JobDraft): JobRead {
  const { job, used } = normaliseJob(draft.against.value);
  return {
    job,
    raw: draft.against.raw,
    hash: hashJson(draft.against.raw),
    defaultsUsed: used,
    locate: (path) => draft.against.text.locate(path),
  };
}
