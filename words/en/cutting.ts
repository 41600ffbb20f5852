import type { CuttingFindings } from "../../core/stages/cutting/findings.ts";
import type { Sentences } from "../words.ts";

export const cutting: Sentences<CuttingFindings> = {};
