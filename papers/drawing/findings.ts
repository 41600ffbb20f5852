import type { Finding } from "../../core/base/finding.ts";
import { line, mark } from "../ink.ts";
import type { Item, Pt } from "../sheet.ts";
import { textWidthMm } from "../text.ts";
import { type Look, onPaper, takePlace } from "./look.ts";
import { distance } from "./plane.ts";
import { onSite } from "./site.ts";

/** Findings of one kind with the number that ties places, list and plan together; `places` are where they lie. */
export interface Numbered {
  number: number;
  finding: Finding;
  /** How many findings this one stands for. */
  count: number;
  places: readonly Pt[];
}

/** Most marks of one kind on a drawing. */
const MOST_PLACES = 60;

/** Findings of one kind this close on paper are one area with one mark. */
const AREA_MM = 25;

/** Marks 3 mm high at their places; where one has no room it stands aside, a thin line to its place. */
export function drawFindings(findings: readonly Numbered[], look: Look): Item[] {
  const items: Item[] = [];
  for (const { number, finding, places } of findings) {
    const marked: Pt[] = [];
    for (const place of places) {
      const at = onPaper(look, place);
      if (marked.length >= MOST_PLACES || marked.some((other) => distance(other, at) < AREA_MM)) continue;
      marked.push(at);
      const free = freePlace(look, at, String(number));
      const aside = distance(at, free) > 2.5;
      if (aside) items.push(line("findings", place, onSite(look, free)));
      items.push(mark("findings", onSite(look, free), finding.level, 3, -look.turnDeg, "ink", String(number)));
    }
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
