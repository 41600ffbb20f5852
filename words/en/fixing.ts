import type { FixingFindings } from "../../core/stages/fixing/findings.ts";
import type { Sentences } from "../words.ts";

export const fixing: Sentences<FixingFindings> = {};
