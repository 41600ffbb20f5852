/** What an importer makes of a file: points and lines as they stand there, before anyone said what axes and unit they have. */
export interface BroughtPoint {
  /** First and second coordinate in the file's own order and unit. */
  a: number;
  b: number;
  /** Height, the file's unit; null where there is none. */
  h: number | null;
  name: string;
}
export interface BroughtLine {
  /** First, second coordinate, bulge of the edge that starts here. */
  vertices: [a: number, b: number, bulge: number][];
  closed: boolean;
  name: string;
}
export type FileUnit = "mm" | "cm" | "m" | "in" | "ft" | "ftUs" | "deg";
/** Which of the first two coordinates runs east (to the right on the drawing). */
export type Axes = "xy" | "yx";
export type Decimal = "." | ",";
export type AskName = "axes" | "unit" | "decimal";
/** What the fitter said where the file does not say. */
export interface Answers {
  axes: Axes | null;
  unit: FileUnit | null;
  decimal: Decimal | null;
}
/** Kinds of content that are left out, each counted. */
export type SkippedWhat =
  | "emptyRow"
  | "headerRow"
  | "textRow"
  | "shortRow"
  | "doubtfulFigure"
  | "entity"
  | "block"
  | "openLine"
  | "shortLine"
  | "geometry"
  | "element"
  | "tooFar";
export interface Skipped {
  what: SkippedWhat;
  count: number;
  /** Names of what was left out, where they help: "TEXT, HATCH". */
  names: string[];
}
export interface Brought {
  format: "table" | "dxf" | "landxml" | "geojson";
  points: BroughtPoint[];
  lines: BroughtLine[];
  /** Triangles of a surface: told, not taken; the base is triangulated anew from the points. */
  faces: number;
  skipped: Skipped[];
  /** What the file says for itself; null where it does not. */
  says: Answers;
  /** What has to be asked: the file is silent and it matters. */
  asks: AskName[];
}
export type Refusal =
  | "tooLarge"
  | "empty"
  | "binary"
  | "unknownKind"
  | "tooMany"
  | "notDxf"
  | "notXml"
  | "docType"
  | "tooDeep"
  | "notLandXml"
  | "notJson"
  | "notGeoJson"
  | "noFigures"
  | "ifc";
export type BringRead = { ok: true; brought: Brought } | { ok: false; why: Refusal; detail: string };

/** Beyond these a file is refused with a sentence. */
export const BRING_LIMITS = {
  textBytes: 32 * 1024 * 1024,
  points: 200_000,
  lines: 20_000,
  vertices: 400_000,
  depth: 60,
} as const;

/** Counts what is left out, by kind, with at most eight names each. */
export function skipCounter(): { skip(what: SkippedWhat, name?: string, count?: number): void; list(): Skipped[] } {
  const kinds = new Map<SkippedWhat, { count: number; names: Set<string> }>();
  return {
    skip(what, name, count = 1) {
      const kind = kinds.get(what) ?? { count: 0, names: new Set<string>() };
      kind.count += count;
      if (name && kind.names.size < 8) kind.names.add(name.slice(0, 40));
      kinds.set(what, kind);
    },
    list: () => [...kinds].map(([what, { count, names }]) => ({ what, count, names: [...names] })),
  };
}

export function refuse(why: Refusal, detail = ""): BringRead & { ok: false } {
  return { ok: false, why, detail: detail.slice(0, 80) };
}
