/** Codes of this stage and the data their sentences need. Sentences: words/<language>/preparation.ts. */
// biome-ignore lint/complexity/noBannedTypes: filled by the stage
export type PreparationFindings = {};
