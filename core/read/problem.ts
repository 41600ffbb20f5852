/**
 * A problem with what was read: where it stands, what was found, what was expected. Sentences: words/<language>/problems.ts.
 * Every problem of a file is reported at once; nothing is written while there is one.
 */
export interface Problem<Code extends string = string, Data = unknown> {
  readonly code: Code;
  readonly file: string;
  /** 1-based; 0 where the place has no line. */
  readonly line: number;
  readonly column: number;
  /** The place in the file, as a path: site.outline[3]. */
  readonly place: string;
  readonly data: Data;
}
export type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: Problem[] };
/** A path into a JSON value. */
export type JsonPath = readonly (string | number)[];
/** A problem before its line is known: found in a value, not yet in a text. */
export interface PathProblem<Code extends string = string, Data = unknown> {
  readonly path: JsonPath;
  readonly code: Code;
  readonly data: Data;
  /** True where the name of the last step is the trouble, not its value. */
  readonly onKey?: boolean;
}

/** A path as people write it: site.outline[3]; the whole file is "". Names that are not plain words are quoted. */
export function placeOf(path: JsonPath): string {
  let out = "";
  for (const step of path) {
    if (typeof step === "number") out += `[${step}]`;
    else if (/^[A-Za-z_][\w-]*$/.test(step)) out += out === "" ? step : `.${step}`;
    else out += `[${JSON.stringify(step.length > 60 ? `${step.slice(0, 60)}...` : step)}]`;
  }
  return out;
}
