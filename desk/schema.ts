import { exportJobSchema } from "../core/job/schema.ts";
import { exportPlanSchema } from "../core/plan/schema.ts";
import { exportProgressSchema } from "../core/progress/schema.ts";
import type { Words } from "../words/words.ts";
import type { Outcome } from "./outcome.ts";

const SCHEMAS: Record<string, () => unknown> = {
  job: exportJobSchema,
  plan: exportPlanSchema,
  progress: exportProgressSchema,
};

/** `rowline schema`: the JSON Schema (2020-12) of a file, from the definition it is validated with. */
export function printSchema(name: string, words: Words): Outcome {
  const make = SCHEMAS[name];
  if (!make) return { exit: 2, lines: [], problems: [words.desk.noSchema(name)], json: null, files: [] };
  const schema = make();
  return { exit: 0, lines: [JSON.stringify(schema, null, 1)], problems: [], json: schema, files: [] };
}
