import type { SideKind } from "../../core/job/job.ts";
import type { ClipKind } from "../../core/stages/fixing/record.ts";

/** The drawing on the screen: what is picked, in a line, and how it is handled. Figures come in as text, mm. */
export interface BoardWords {
  /** What the thing is, for those who hear the page. */
  drawing: string;
  keys: string;
  closer: string;
  farther: string;
  whole: string;
  piece(row: string, id: string, length: string, width: string, board: string): string;
  clip(kind: ClipKind, id: string, left: string, right: string): string;
  screw: string;
  level(height: string): string;
  cutout(name: string, height: "tall" | "flush" | "removable"): string;
  side(kind: SideKind, number: string, gap: string): string;
  /** Heading of the drawing told as a table, and its columns: row, lengths, width, clips. */
  table(rows: string, pieces: string, boards: string, clips: string): string;
  columns: readonly [string, string, string, string];
}
