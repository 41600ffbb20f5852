import type { SurfaceFindings } from "../../core/stages/surface/findings.ts";
import type { Sentences } from "../words.ts";

export const surface: Sentences<SurfaceFindings> = {};
