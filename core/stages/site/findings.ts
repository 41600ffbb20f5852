/** Codes of this stage and the data their sentences need. Sentences: words/<language>/site.ts. */
// biome-ignore lint/complexity/noBannedTypes: filled by the stage
export type SiteFindings = {};
