import { ASKEW_MM, type Drift } from "../../core/progress/drift.ts";
import type { ResumeWords } from "../desk.ts";
import type { Figures } from "../words.ts";

/** As you stand at the start line and look away from it: +u is on your right. */
const LEFT = "on the left";
const RIGHT = "on the right";

/** Most pieces named in one sentence. */
const NAMED = 20;

/** Rows are counted from 1, as on the cards' drawing and in the findings. */
export const resume: ResumeWords = {
  heading: "Begun",
  laid: (laid, pieces, rowsDone, rowsBegun) => {
    if (laid === 0) return `Nothing lies yet: ${pieces} pieces to lay. The whole job was planned again.`;
    const begun = rowsBegun.length === 0 ? "none half laid" : `begun: ${rowsBegun.map((row) => row + 1).join(", ")}`;
    return `Laid so far: ${laid} of ${pieces} pieces; rows finished: ${rowsDone}, ${begun}.`;
  },
  asLaid: (pieces) =>
    `${pieces === 1 ? "The piece that lies is" : `All ${pieces} pieces that lie are`} in the new plan where and as they lie, to 0.001 mm; rows begun keep their joints.`,
  needed: ({ boards, fromOffcuts }, w) => {
    const list = boards.map(({ length, count }) => `${count} × ${w.mm(length)} mm`).join(", ");
    const lines = [list === "" ? "Still needed: no further board." : `Still needed: boards ${list}, without spares.`];
    if (fromOffcuts.length > 0)
      lines.push(
        `From lengths at hand: ${fromOffcuts.map((one) => `${one.piece} (${w.mm(one.length)} mm) from ${w.mm(one.from)} mm`).join(", ")}. Look at their grooves first.`,
      );
    return lines;
  },
  spoilt: (pieces, boards) =>
    `Spoilt: ${[...pieces.map((id) => `piece ${id}`), ...boards.map((id) => `board ${id}`)].join(", ")} (names of the plan worked from). ${pieces.length > 0 ? "What was to be cut there is cut again. " : ""}Counted boards are fewer by what is gone.`,
  drift: driftLines,
  otherwise: (pieces, w) => {
    const list = pieces
      .slice(0, NAMED)
      .map(({ before, row, offMm }) => {
        const off = offMm === null ? "nothing planned there now" : `off by up to ${w.mm1(offMm)} mm`;
        return `${before} (row ${row + 1}, ${off})`;
      })
      .join(", ");
    const more = pieces.length > NAMED ? ` and ${pieces.length - NAMED} more, all in the --json answer` : "";
    const one = pieces.length === 1;
    return `Stop: ${one ? "a piece does" : `${pieces.length} pieces do`} not lie as the new plan has ${one ? "it" : "them"}: ${list}${more}. Nothing was moved on paper to hide it; ${one ? "it does" : "they do"} not count as laid. Decide on site: leave ${one ? "it" : "them"} and note the deviation, or take ${one ? "it" : "them"} up and lay by the new cards.`;
  },
  holes: (count) =>
    `${count} ${count === 1 ? "hole was" : "holes were"} entered where ${count === 1 ? "it is" : "they are"}. The plan does not move clips for them: see that each lies within the play its card gives.`,
  outlineBroken:
    "With the walls as measured since, the outline no longer holds. Nothing was written. Lines below count in the job with those walls put in:",
  rowsMoved:
    "Stop: the rows could not be put back where they lie. Nothing that lies was moved; do not lay on by this plan.",
};

function driftLines(drift: Drift, range: readonly [number, number], w: Figures): string[] {
  const { row, off, gaps, gap, each, left } = drift;
  const two = (value: number): string => w.number(value, 2);
  const side = (value: number): string =>
    value === 0 ? "on its line" : `${w.mm1(Math.abs(value))} mm ${value > 0 ? "beyond" : "short of"} its line`;
  const lines = [`Mind: row ${row + 1}, measured: ${side(off[0])} ${LEFT}, ${side(off[1])} ${RIGHT}.`];
  const askew = Math.abs(drift.skew) > ASKEW_MM;
  if (askew)
    lines.push(
      `The rows run askew by ${w.mm1(Math.abs(drift.skew))} mm. One drawing has one gap for all rows and cannot follow: the cards keep the planned lines, the two ends get different spacers.`,
    );
  if (gaps === 0) {
    if (off[0] !== 0 || off[1] !== 0) lines.push("No gap is left to take it up. Measure the edge gap at the last row.");
    return lines;
  }
  if (each[0] !== 0 || each[1] !== 0)
    lines.push(
      `Take it up in the next ${gaps} ${gaps === 1 ? "gap" : "gaps"}: set ${two(gap[0])} mm ${LEFT} and ${two(gap[1])} mm ${RIGHT} (${signed(each[0], two)} and ${signed(each[1], two)} mm each), and check the line every few rows.`,
    );
  if (left[0] !== 0 || left[1] !== 0)
    lines.push(
      `A gap may be ${w.mm1(range[0])} to ${w.mm1(range[1])} mm (gaps.sideRange), so this much is not taken up: ${side(left[0])} ${LEFT} and ${side(left[1])} ${RIGHT} at the last row. Cut or set the last row to what you measure there, and see that its edge gap stays; the plan does not claim it.`,
    );
  return lines;
}

function signed(value: number, two: (value: number) => string): string {
  return value > 0 ? `+${two(value)}` : value < 0 ? `−${two(-value)}` : two(0);
}
