import type { Finding } from "../../core/base/finding.ts";
import { mark } from "../ink.ts";
import type { Item, Pt } from "../sheet.ts";
import { textWidthMm } from "../text.ts";
import { type Look, onPaper, takePlace } from "./look.ts";
import { onSite } from "./site.ts";

/** A finding with the number that ties place, list and plan together. */
export interface Numbered {
  number: number;
  finding: Finding;
}

/** Marks 3 mm high at their places; findings at one place fan out so that each number is read. */
export function drawFindings(findings: readonly Numbered[], look: Look): Item[] {
  const items: Item[] = [];
  for (const { number, finding } of findings) {
    if (!finding.at) continue;
    const at = freePlace(look, onPaper(look, finding.at), String(number));
    items.push(mark("findings", onSite(look, at), finding.level, 3, -look.turnDeg, "ink", String(number)));
  }
  return items;
}

function freePlace(look: Look, at: Pt, number: string): Pt {
  const width = textWidthMm(number, 2.5, true);
  for (const [dx, dy] of AROUND) {
    const [x, y] = [at[0] + dx, at[1] + dy];
    if (takePlace(look.room, { x0: x - 1.7, y0: y - 1.7, x1: x + 2.4 + width, y1: y + 1.7 })) return [x, y];
  }
  return at;
}
const AROUND: readonly Pt[] = [
  [0, 0],
  [0, 4],
  [0, -4],
  [-8, 0],
  [8, 0],
  [-8, 4],
  [8, 4],
  [-8, -4],
  [8, -4],
  [0, 8],
  [0, -8],
  [-14, 0],
  [14, 0],
  [-8, 8],
  [8, -8],
];
