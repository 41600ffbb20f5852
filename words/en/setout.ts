import type { SetoutFindings } from "../../core/stages/setout/findings.ts";
import type { Sentences } from "../words.ts";

export const setout: Sentences<SetoutFindings> = {};
