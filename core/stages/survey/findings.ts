/** Codes of this stage and the data their sentences need. Sentences: words/<language>/survey.ts. */
// biome-ignore lint/complexity/noBannedTypes: filled by the stage
export type SurveyFindings = {};
