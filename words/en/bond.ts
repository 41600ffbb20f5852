import type { BondFindings } from "../../core/stages/bond/findings.ts";
import type { Sentences } from "../words.ts";

export const bond: Sentences<BondFindings> = {};
