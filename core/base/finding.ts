/**
 * A finding is a code with data; sentences live in words/. The rule says which law of a plan it speaks of,
 * and is the only thing that can excuse a breach of that same law.
 */
export type FindingLevel = "stop" | "warn" | "note";
/** What would release the finding: another reading, a named person, a document, or nothing. */
export type Release = "reading" | "person" | "document" | null;

export interface Finding<Code extends string = string, Data = unknown> {
  readonly code: Code;
  /** The rule as it stands in the plan file, e.g. "minRip"; several codes may share one. */
  readonly rule: string;
  readonly level: FindingLevel;
  /** Where, site frame, mm; null where the finding concerns the whole job. */
  readonly at: readonly [number, number] | null;
  /** Measured value and limit in the rule's own unit (mm, %, count); null where there is none. */
  readonly found: number | string | null;
  readonly limit: number | string | null;
  readonly releasedBy: Release;
  /** The figures its sentence needs. */
  readonly data: Data;
}

/** All findings of a stage whose codes and data are listed in `Table`. */
export type FindingsOf<Table> = { [C in keyof Table & string]: Finding<C, Table[C]> }[keyof Table & string];
