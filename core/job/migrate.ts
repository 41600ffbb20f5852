/** One step between neighbouring versions of a file format. It changes the value as read; it never looks at defaults. */
export interface Migration {
  /** The version it leads to, from the one before. */
  to: number;
  change(value: Record<string, unknown>): Record<string, unknown>;
}

/** Steps of the job file in order. Version 1 is the first: there is nothing to change yet. */
export const JOB_MIGRATIONS: readonly Migration[] = [];

/**
 * Brings a value from one version to another by every step in between, in order. The given value is not changed.
 * Throws where a step is missing, which is a mistake of ours and never of the file.
 */
export function migrate(
  steps: readonly Migration[],
  given: Record<string, unknown>,
  from: number,
  to: number,
): Record<string, unknown> {
  let value = structuredCopy(given);
  for (let version = from + 1; version <= to; version++) {
    const step = steps.find((one) => one.to === version);
    if (!step) throw new Error(`no migration to version ${version}`);
    value = step.change(value);
  }
  return value;
}

/** The same from a format's name: "rowline/job" and 2 make "rowline/job@2". */
export function migrateFormat(steps: readonly Migration[], name: string, to: number) {
  return (given: Record<string, unknown>, from: number): Record<string, unknown> => ({
    ...migrate(steps, given, from, to),
    format: `${name}@${to}`,
  });
}

function structuredCopy(value: Record<string, unknown>): Record<string, unknown> {
  return JSON.parse(JSON.stringify(value)) as Record<string, unknown>;
}
