import type { AskName, FileUnit, Refusal, SkippedWhat } from "../../core/bring/brought.ts";

/** Bringing in a file: what it holds, what is skipped, and what the file does not say. */
export interface BringWords {
  hint: string;
  choose: string;
  dropHere: string;
  /** What was found: "42 points with heights". */
  found(name: string): string;
  points(count: number): string;
  pointsFlat(count: number): string;
  outlines(count: number): string;
  faces(count: number): string;
  skipped(count: number): string;
  skippedWhat: Record<SkippedWhat, (count: number, names: string) => string>;
  nothingSkipped: string;
  ask: Record<AskName, string>;
  axes: Record<"xy" | "yx", string>;
  units: Record<FileUnit, string>;
  decimals: Record<"." | ",", string>;
  mustAnswer: string;
  takeLevels(count: number): string;
  takeOutline: string;
  noOutline: string;
  outlineChoice(name: string, corners: number, size: string): string;
  /** The box round everything taken. */
  spans(width: string, height: string): string;
  levelsBetween(low: string, high: string): string;
  shifted(x: string, y: string): string;
  tooWide(width: string): string;
  take: string;
  putBack: string;
  refused: Record<Refusal, (detail: string) => string>;
}
