import type { SurveyFindings } from "../../core/stages/survey/findings.ts";
import type { Sentences } from "../words.ts";

export const survey: Sentences<SurveyFindings> = {};
