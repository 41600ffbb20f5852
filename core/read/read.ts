import { type JsonText, listed, readJson } from "./json.ts";
import type { JsonPath, PathProblem, Problem } from "./problem.ts";
import type { Rule } from "./rule.ts";
import { validate } from "./validate.ts";

export interface FormatRule {
  /** "rowline/job@1": what the file's `format` has to be. */
  format: string;
  schema: Rule;
  /** Brings an older version's value up to `format`. Called only where the version is older. */
  migrate?(value: Record<string, unknown>, version: number): Record<string, unknown>;
}
export interface Against {
  text: JsonText;
  /** The value as written in the file. */
  raw: unknown;
  /** The value brought to the newest version; differs from `raw` only after a migration. */
  value: unknown;
  /** Unsorted; where they lie in the value is in `paths`. */
  problems: Problem[];
  paths: JsonPath[];
  unlisted: number;
  /** False where nothing can be said of the value: broken text, other format. */
  judged: boolean;
}

/**
 * Reads a text as one of our formats: syntax, format and version, then every breach of the schema.
 * Used by the job, the plan and the progress file alike; callers add what a schema cannot say and call `listed`.
 */
export function readAgainst(given: string, file: string, rule: FormatRule): Against {
  const text = readJson(given, file);
  const base = {
    text,
    raw: text.value,
    value: text.value,
    problems: text.problems,
    paths: [],
    unlisted: text.unlisted,
  };
  if (!text.sound) return { ...base, judged: false };
  const format = checkFormat(text.value, rule.format);
  if (format.problem) return { ...base, problems: [...text.problems, ...text.place([format.problem])], judged: false };
  let value = text.value;
  if (format.version !== null && format.version < versionOf(rule.format) && rule.migrate) {
    value = rule.migrate(value as Record<string, unknown>, format.version);
  }
  const found = validate(rule.schema, value);
  return {
    text,
    raw: text.value,
    value,
    problems: [...text.problems, ...text.place(found.problems)],
    paths: [...found.problems.map((one) => one.path), ...found.notFinite],
    unlisted: text.unlisted + found.unlisted,
    judged: true,
  };
}

/** Every problem in the order of the file, cut at the limit with a count of the rest. */
export function allOf(against: Against, more: readonly PathProblem[], file: string): Problem[] {
  return listed([...against.problems, ...against.text.place(more)], file, against.unlisted);
}

function versionOf(format: string): number {
  return Number(format.slice(format.lastIndexOf("@") + 1));
}

const OURS = ["rowline/job", "rowline/plan", "rowline/progress"];

/**
 * Another of our files, or one from a later Rowline, is told of once and not torn apart key by key.
 * A format that is none of ours is left to the schema, so that everything else is judged beside it.
 */
function checkFormat(value: unknown, expected: string): { problem: PathProblem | null; version: number | null } {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return { problem: null, version: null };
  const found: unknown = (value as Record<string, unknown>).format;
  if (typeof found !== "string" || !/^rowline\/[a-z]+@[1-9]\d{0,8}$/.test(found))
    return { problem: null, version: null };
  const name = found.slice(0, found.lastIndexOf("@"));
  if (name !== expected.slice(0, expected.lastIndexOf("@"))) {
    const problem = { path: ["format"], code: "otherFormat", data: { found, expected } };
    return { problem: OURS.includes(name) ? problem : null, version: null };
  }
  const version = versionOf(found);
  if (version <= versionOf(expected)) return { problem: null, version };
  return { problem: { path: ["format"], code: "futureFormat", data: { found, newest: expected } }, version };
}
