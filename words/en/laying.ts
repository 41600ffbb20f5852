import type { LayingFindings } from "../../core/stages/laying/findings.ts";
import type { Sentences } from "../words.ts";

export const laying: Sentences<LayingFindings> = {};
