/** Codes of this stage and the data their sentences need. Sentences: words/<language>/cutting.ts. */
// biome-ignore lint/complexity/noBannedTypes: filled by the stage
export type CuttingFindings = {};
