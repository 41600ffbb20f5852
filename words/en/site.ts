import type { SiteFindings } from "../../core/stages/site/findings.ts";
import type { Sentences } from "../words.ts";

export const site: Sentences<SiteFindings> = {};
