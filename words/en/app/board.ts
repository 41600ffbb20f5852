import type { BoardWords } from "../../app/board.ts";

const CLIPS = { start: "Start clip", seam: "Clip between rows", last: "Last clip", end: "End clip" };
const SIDES = { wall: "Wall", door: "Door", kerb: "Kerb", open: "Open side", outlet: "Outlet", pool: "Pool" };
const HEIGHTS = { tall: "stands above the boards", flush: "level with the boards", removable: "lid stays free" };

export const board: BoardWords = {
  drawing: "drawing",
  keys: "Arrow keys move the drawing, plus and minus bring it closer and farther, 0 shows the whole. Enter picks the board in the middle; then Tab goes through findings and the boards of the row, arrow keys to the board beside, Escape lets go.",
  closer: "Closer",
  farther: "Farther",
  whole: "Whole terrace",
  piece: (row, id, length, width, from) => `Row ${row}, piece ${id}: ${length} × ${width} mm, from board ${from}`,
  clip: (kind, id, left, right) =>
    left === "0" && right === "0"
      ? `${CLIPS[kind]} ${id}: no play along the row`
      : `${CLIPS[kind]} ${id}: may move ${left} mm left, ${right} mm right`,
  screw: "Screw through the face, for a ripped edge",
  level: (height) => `Level ${height} mm`,
  cutout: (name, height) => `${name}: ${HEIGHTS[height]}`,
  side: (kind, number, gap) => `${SIDES[kind]}, side ${number}: gap ${gap} mm`,
  table: (rows, pieces, boards, clips) => `Plan: ${rows} rows, ${pieces} pieces from ${boards} boards, ${clips} clips`,
  columns: ["Row", "Lengths of its pieces, left to right, mm", "Width, mm", "Clips below it"],
};
