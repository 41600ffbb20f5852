/** Rule 2, rows: one board wide, none left out, one side gap apart, and each names its pieces. */
import { TOLERANCE } from "../../base/tolerances.ts";
import { blame, mm, type Scene, TOUCH, um } from "../scene.ts";

export function judgeRows(scene: Scene): void {
  const { job, plan, rows } = scene;
  const width = um(job.board.width);
  const [least, most] = sideGaps(scene);
  rows.forEach((row, k) => {
    if (row.row !== k) blame(scene, "rowMissing", [0, row.v0], row.row, k, { row: k });
    if (Math.abs(row.v1 - row.v0 - width) > 1)
      blame(scene, "rowStrip", [0, row.v0], mm(row.v1 - row.v0), job.board.width, { row: row.row });
    const below = rows[k - 1];
    if (below) {
      const gap = row.v0 - below.v1;
      if (gap < least - 1 || gap > most + 1 || Math.abs(gap - um(plan.bond.sideGap)) > 1)
        blame(scene, "rowGap", [0, row.v0], mm(gap), plan.bond.sideGap, {
          row: row.row,
          least: mm(least),
          most: mm(most),
        });
    }
  });
  for (const row of plan.rows) {
    const own = new Set(row.pieces);
    const judged = scene.rowOf.get(row.row);
    const stand = judged?.pieces.map((p) => p.source.id) ?? [];
    const listed = own.size === row.pieces.length && own.size === stand.length && stand.every((id) => own.has(id));
    if (!listed || stand.length === 0)
      blame(scene, "rowPieces", [0, judged?.v0 ?? 0], row.pieces.length, stand.length, { row: row.row });
  }
  for (const piece of scene.pieces)
    if (!piece.row)
      blame(scene, "rowMissing", [piece.u0, piece.v0], piece.source.id, piece.source.row, { row: piece.source.row });
  const first = job.bond.firstRow;
  const row0 = rows[0];
  if (first !== null && row0 && row0.pieces.length > 0) {
    const lowest = Math.min(...row0.pieces.map((p) => p.v0));
    // Row 0 is as wide as asked where the field is straight there; a field that recedes leaves less.
    if (row0.v1 - lowest > um(first) + TOLERANCE.gapOverMm * 1000)
      blame(scene, "firstRow", [row0.pieces[0]!.u0, lowest], mm(row0.v1 - lowest), first, {});
  }
  if (job.bond.angle !== null && plan.frame.angle !== job.bond.angle)
    blame(scene, "frameAngle", null, plan.frame.angle, job.bond.angle, {});
}

/** Least and greatest row gap, um: `gaps.side` or within `sideRange`. */
function sideGaps(scene: Scene): [number, number] {
  const { side, sideRange } = scene.job.gaps;
  return [um(Math.min(side, sideRange[0])), um(Math.max(side, sideRange[1]))];
}

/** The pieces of a row lie in its strip. */
export function judgeStrips(scene: Scene): void {
  for (const piece of scene.pieces) {
    const { row } = piece;
    if (row && (piece.v0 < row.v0 - TOUCH || piece.v1 > row.v1 + TOUCH))
      blame(scene, "pieceOutsideStrip", [piece.u0, piece.v0], mm(Math.max(row.v0 - piece.v0, piece.v1 - row.v1)), 0, {
        piece: piece.source.id,
        row: row.row,
      });
  }
}
