import { hashJson } from "../core/job/hash.ts";
import { loadJob } from "../core/plan/load.ts";
import { readPlan } from "../core/plan/schema.ts";
import { readProgress } from "../core/progress/read.ts";
import { resumeJob } from "../core/progress/resume.ts";
import type { Words } from "../words/words.ts";
import type { FontBytes } from "../write/font/files.ts";
import type { NamedText, Outcome } from "./outcome.ts";
import { type OnStage, planJob } from "./plan.ts";
import { refused } from "./problems.ts";

/**
 * `rowline resume`: keeps what is laid as it was laid and plans the rest, from what was measured since. Writes the job
 * as it now stands beside the new plan, so that the checker can prove the two.
 */
export async function resumeFiles(
  job: NamedText,
  plan: NamedText,
  progress: NamedText,
  words: Words,
  fonts: FontBytes,
  onStage: OnStage = () => {},
): Promise<Outcome> {
  const loaded = loadJob(job.text, job.name);
  const readP = readPlan(plan.text, plan.name);
  const events = readProgress(progress.text, progress.name);
  if (!loaded.ok || !readP.ok || !events.ok)
    return refused([loaded, readP, events].flatMap((read) => (read.ok ? [] : read.problems)), words);
}
