import { readBring } from "../core/bring/read.ts";
import { settle } from "../core/bring/settle.ts";
import type { BringWords } from "../words/app/bring.ts";
import type { NamedText, Outcome } from "./outcome.ts";

/**
 * `rowline read`: what a surveyor's file holds, what is left out, what the file does not say. Where it says everything, the
 * points and rings in the site's frame, mm; else as they stand in the file.
 */
export function readSurveyFile({ name, text }: NamedText, words: BringWords): Outcome {
  const read = readBring(text, name);
  if (!read.ok) {
    const says = words.refused[read.why](read.detail);
    return { exit: 2, lines: [], problems: [`${name}: ${says}`], json: { refused: read.why, says }, files: [] };
  }
  const { brought } = read;
  const heights = brought.points.filter(({ h }) => h !== null).length;
  const flat = brought.points.length - heights;
  const lines = [
    ...(heights > 0 ? [words.points(heights)] : []),
    ...(flat > 0 ? [words.pointsFlat(flat)] : []),
    ...(brought.lines.length > 0 ? [words.outlines(brought.lines.length)] : []),
    ...(brought.faces > 0 ? [words.faces(brought.faces)] : []),
    ...brought.skipped.map(({ what, count, names }) => `- ${words.skippedWhat[what](count, names.join(", "))}`),
    ...brought.asks.map((ask) => words.ask[ask]),
  ];
  return { exit: 0, lines, problems: [], json: { ...brought, settled: settle(brought, {}) }, files: [] };
}
