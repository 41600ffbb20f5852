import type { PreparationFindings } from "../../core/stages/preparation/findings.ts";
import type { Sentences } from "../words.ts";

export const preparation: Sentences<PreparationFindings> = {};
