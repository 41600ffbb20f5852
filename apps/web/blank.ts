import type { JobDraft } from "../../core/edits/draft.ts";
import example from "../../examples/courtyard.job.json";
import type { AppWords } from "../../words/app.ts";

/** The example job the app opens on. */
export function exampleJob(): JobDraft {
  return structuredClone(example) as unknown as JobDraft;
}

/** A new job: a small rectangle to be measured, the example's invented board and prices until the fitter's own are entered. */
export function blankJob(words: AppWords): JobDraft {
  const { currency, board, gaps, trim, prices } = exampleJob();
  return {
    format: "rowline/job@1",
    title: words.shell.newTitle,
    currency,
    site: {
      outline: [
        [0, 0],
        [4000, 0],
        [4000, 3000],
        [0, 3000],
      ],
      sides: ["wall", "wall", "wall", "wall"],
    },
    board,
    gaps,
    bond: { angle: 0, kind: "half" },
    trim,
    prices,
    // the measure step begins with the first side of the outline
    "x-measure": { walk: [] },
  };
}
