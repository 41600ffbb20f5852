/** Codes of this stage and the data their sentences need. Sentences: words/<language>/bond.ts. */
// biome-ignore lint/complexity/noBannedTypes: filled by the stage
export type BondFindings = {};
