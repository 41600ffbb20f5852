import type { Pt } from "../../../papers/sheet.ts";
import type { SaidFinding } from "../desk/asks.ts";
import { type Camera, type Size, toScreen } from "./camera.ts";
import type { Pen } from "./paint-rows.ts";
import { paintSymbol } from "./symbol.ts";
import type { Tones } from "./tones.ts";

/** A finding's mark as it stands on the screen; one for all of a kind that lie close together. */
export interface FindingMark {
  /** Into the answer's findings. */
  index: number;
  /** Screen, CSS px. */
  at: Pt;
  count: number;
}
/** Findings of one kind this near on the screen share a mark, px. */
const AREA_PX = 70;
const MARK_PX = 17;
const PICKED_PX = 25;
/** Room a mark takes with its number. */
const WIDE_PX = 46;
const HIGH_PX = 24;

/** Where the marks stand. Cost: findings in view times marks of their kind. */
export function findingMarks(findings: readonly SaidFinding[], camera: Camera, size: Size): FindingMark[] {
  const out: FindingMark[] = [];
  findings.forEach(({ at, number }, index) => {
    if (!at) return;
    const [x, y] = toScreen(camera, size, at);
    if (x < -MARK_PX || y < -MARK_PX || x > size[0] + MARK_PX || y > size[1] + MARK_PX) return;
    const known = out.find(
      (mark) =>
        findings[mark.index]!.number === number &&
        Math.max(Math.abs(mark.at[0] - x), Math.abs(mark.at[1] - y)) < AREA_PX,
    );
    if (known) known.count++;
    else out.push({ index, at: freePlace(out, [x, y]), count: 1 });
  });
  return out;
}

/** Where another mark stands, the next ones stand to the right of it, then below. */
function freePlace(taken: readonly FindingMark[], [x, y]: Pt): Pt {
  for (const dy of [0, 1, -1, 2])
    for (const dx of [0, 1, -1, 2]) {
      const at: Pt = [x + dx * WIDE_PX, y + dy * HIGH_PX];
      const free = !taken.some(
        (mark) => Math.abs(mark.at[0] - at[0]) < WIDE_PX - 1 && Math.abs(mark.at[1] - at[1]) < HIGH_PX - 1,
      );
      if (free) return at;
    }
  return [x, y];
}

/** Paints the marks with their numbers on a ground of the sheet's colour, the picked one larger. */
export function paintFindings(
  pen: Pen,
  findings: readonly SaidFinding[],
  marks: readonly FindingMark[],
  picked: number | null,
  tones: Tones,
): void {
  const number = picked === null ? null : findings[picked]?.number;
  pen.font = "700 14px Atkinson, sans-serif";
  pen.textAlign = "left";
  pen.textBaseline = "middle";
  for (const { index, at } of marks) {
    const finding = findings[index]!;
    const side = finding.number === number ? PICKED_PX : MARK_PX;
    const width = pen.measureText(String(finding.number)).width;
    const [x, y] = at;
    pen.fillStyle = tones.sheet;
    pen.beginPath();
    pen.roundRect(x - side / 2 - 3, y - side / 2 - 3, side + width + 12, side + 6, 3);
    pen.fill();
    if (finding.number === number) {
      pen.strokeStyle = tones.accent;
      pen.lineWidth = 2.5;
      pen.stroke();
    }
    pen.save();
    pen.translate(x, y);
    paintSymbol(pen, finding.level, side, tones.ink, tones.sheet);
    pen.restore();
    pen.fillStyle = tones.ink;
    pen.fillText(String(finding.number), x + side / 2 + 5, y + 1);
  }
}
