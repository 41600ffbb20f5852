import type { FindingsOf } from "../../base/finding.ts";
import type { BondRecord } from "../bond/record.ts";
import type { CuttingFindings } from "./findings.ts";
import type { Board } from "./record.ts";

/** Live offcuts anybody keeps in order. Common practice, no source. */
const MANAGED = 10;

/** Most boards begun and not used up at one time, laying row after row; a note above what can be kept in order. */
export function pileOf(
  bond: BondRecord,
  boards: readonly Board[],
  boardOf: readonly number[],
): FindingsOf<CuttingFindings> | null {
  const open = boards.map((b) => b.parts.length);
  let live = 0;
  let most = 0;
  let row = 0;
  for (let i = 0; i < bond.pieces.length; i++) {
    const b = boardOf[i]!;
    if (b < 0) continue;
    if (open[b] === boards[b]!.parts.length && open[b]! > 1) live++;
    open[b]!--;
    if (open[b] === 0 && boards[b]!.parts.length > 1) live--;
    if (live > most) {
      most = live;
      row = bond.pieces[i]!.row;
    }
  }
  if (most <= MANAGED) return null;
  return {
    code: "offcutPile",
    rule: "offcuts",
    level: "note",
    at: null,
    found: most,
    limit: MANAGED,
    releasedBy: null,
    data: { most, row, managed: MANAGED },
  };
}
