/** Codes of everything that can be wrong with a text before its meaning is looked at, and the data their sentences need. */
export type Kind = "object" | "list" | "text" | "number" | "whole" | "yesno" | "null" | "nothing";
/** What stands in the file: its kind, and a short form of it (texts are cut at 40 characters). */
export interface Found {
  kind: Kind;
  /** Scalars as written, lists and objects by how much they hold. */
  shown: string;
}
export type SyntaxWhat =
  | "symbol"
  | "number"
  | "nameExpected"
  | "valueExpected"
  | "colonExpected"
  | "commaExpected"
  | "closeBrace"
  | "closeBracket"
  | "afterEnd"
  | "comment"
  | "openString"
  | "unicode"
  | "escape"
  | "character"
  | "other";

export interface ReadProblems {
  textTooLarge: { bytes: number; limit: number };
  textEmpty: Record<string, never>;
  tooDeep: { limit: number };
  syntax: { what: SyntaxWhat; found: string };
  brokenText: { found: string };
  notFinite: { found: string };
  repeatedKey: { key: string; firstLine: number };
  unknownKey: { key: string; nearest: string | null; elsewhere: string | null; known: string[] };
  missing: { key: string; expected: Kind[]; title: string };
  wrongType: { found: Found; expected: Kind[]; choices: string[] };
  wrongChoice: { found: string; choices: string[]; nearest: string | null };
  tooSmall: { found: number; limit: number; unit: string; excluded: boolean };
  tooGreat: { found: number; limit: number; unit: string; excluded: boolean };
  notWhole: { found: number };
  tooFew: { found: number; limit: number };
  tooMany: { found: number; limit: number };
  textTooShort: { found: number; limit: number };
  textTooLong: { found: number; limit: number };
  textPattern: { found: string; example: string };
  otherFormat: { found: string; expected: string };
  futureFormat: { found: string; newest: string };
  moreProblems: { count: number };
}
export type ReadCode = keyof ReadProblems & string;
