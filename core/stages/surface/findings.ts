/** Codes of this stage and the data their sentences need. Sentences: words/<language>/surface.ts. */
export interface SurfaceFindings {
  noLevels: Record<string, never>;
  fewLevels: { count: number; onOneLine: boolean };
  levelsOutside: { count: number };
  levelTwice: { differenceMm: number };
  unevenness: { gapMm: number; limitMm: number; lengthMm: number; places: number };
  unevennessRead: { gapMm: number; limitMm: number; lengthMm: number };
  deviation: { halfWidthMm: number; limitMm: number; facet: number; facets: number };
  fall: { fall: number; limit: number; facet: number; facets: number };
  fallMax: { fall: number; limit: number; facet: number; facets: number };
  fallLocal: { fall: number; limit: number; areaMm2: number };
  fallToHouse: { fall: number; kind: "wall" | "door"; sides: number };
  puddle: { depthMm: number; areaMm2: number; volumeMm3: number; atDoor: boolean; cutout: string | null };
  lidDrains: { name: string };
  noOutlet: Record<string, never>;
  notProven: { spacingMm: number; limitMm: number };
  firmNot: Record<string, never>;
  firmUnknown: Record<string, never>;
  loose: { name: string; kind: string };
  membrane: { known: boolean };
  heating: { known: boolean };
  tendons: { known: boolean };
  confirmed: { of: string; by: string; on: string; says: string };
  baseKind: { kind: string };
}
