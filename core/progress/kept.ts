import { roundMm } from "../base/units.ts";
import type { Board, Piece, PlanFile } from "../plan/plan.ts";
import type { ProgressState } from "./state.ts";

/** A row that is begun: its joints stand, because pieces of it lie or are cut to them. */
export interface KeptRow {
  row: number;
  /** Its strip in the frame, as planned, mm. */
  v: readonly [number, number];
  /** Middles of its end gaps in the frame, ascending, mm. */
  joints: number[];
  /** All its pieces in order; those that lie are kept as they are, the rest keep their ends. */
  pieces: { id: string; laid: boolean; broken: boolean }[];
  /** Every piece of it lies. */
  done: boolean;
}
/** What planning again must not change. */
export interface Kept {
  /** The row frame and grid of the plan that was worked from. */
  frame: PlanFile["frame"];
  bond: PlanFile["bond"];
  rows: KeptRow[];
  /** The pieces that lie, whole, as the plan drew them. */
  laid: Piece[];
  /** How far the last measured row's upper edge lies above its planned place, at both ends, mm; null where none was measured. */
  drift: { row: number; start: number; end: number } | null;
  /** Boards that are gone: they hold a piece that lies, or are broken. Pieces that lie stay on theirs. */
  boards: { board: Board; why: "laid" | "broken" }[];
  /** Lengths at hand beside whole boards: entered, and left over on boards that were cut for what lies, longest first, mm. */
  offcuts: { length: number; width: number; from: string | null }[];
}

/** What stays, from the plan worked from and what was done. O(plan). `kerf` and `minOffcut` as in the job, mm. */
export function keptOf(
  plan: PlanFile,
  state: ProgressState,
  boardWidth: number,
  kerf: number,
  minOffcut: number,
): Kept {
  const laid = plan.pieces.filter((piece) => state.laid.has(piece.id));
  const begun = new Set(laid.map((piece) => piece.row));
  return {
    frame: plan.frame,
    bond: plan.bond,
    rows: plan.rows.filter((row) => begun.has(row.row)).map((row) => keptRow(plan, row, state)),
    laid,
    drift: driftOf(plan, state),
    boards: goneBoards(plan, state),
    offcuts: offcutsOf(plan, state, boardWidth, kerf, minOffcut),
  };
}

function keptRow(plan: PlanFile, row: PlanFile["rows"][number], state: ProgressState): KeptRow {
  const joints = plan.joints.filter((joint) => joint.row === row.row).map((joint) => joint.u);
  const pieces = row.pieces.map((id) => ({ id, laid: state.laid.has(id), broken: state.broken.pieces.has(id) }));
  return {
    row: row.row,
    v: row.v,
    joints: joints.sort((a, b) => a - b),
    pieces,
    done: pieces.every((piece) => piece.laid),
  };
}

/** The measured row farthest from the start counts: what lies behind it can no longer be moved. */
function driftOf(plan: PlanFile, state: ProgressState): Kept["drift"] {
  let last: Kept["drift"] = null;
  for (const { row, v } of plan.rows) {
    const measured = state.lines.get(row);
    if (measured) last = { row, start: roundMm(measured[0] - v[1]), end: roundMm(measured[1] - v[1]) };
  }
  return last;
}

function goneBoards(plan: PlanFile, state: ProgressState): Kept["boards"] {
  return plan.boards.flatMap((board): Kept["boards"] => {
    if (board.parts.some((part) => state.laid.has(part.piece))) return [{ board, why: "laid" }];
    const broken = state.broken.boards.has(board.id) || board.parts.some((part) => state.broken.pieces.has(part.piece));
    return broken ? [{ board, why: "broken" }] : [];
  });
}

function offcutsOf(
  plan: PlanFile,
  state: ProgressState,
  boardWidth: number,
  kerf: number,
  minOffcut: number,
): Kept["offcuts"] {
  const entered = state.offcuts.map((one) => ({ ...one, from: null }));
  const left = plan.boards.flatMap((board) => {
    const used = board.parts.filter((part) => state.laid.has(part.piece));
    if (used.length === 0 || state.broken.boards.has(board.id)) return [];
    // a spoilt piece takes its part of the board with it
    const gone = board.parts.filter((part) => state.laid.has(part.piece) || state.broken.pieces.has(part.piece));
    return freeLengths(
      board.length,
      gone.map((part) => [part.at[0], part.at[0] + part.size[0]] as const),
      kerf,
    )
      .filter((length) => length >= minOffcut && length > 0)
      .map((length) => ({ length, width: boardWidth, from: board.id }));
  });
  return [...entered, ...left].sort((a, b) => b.length - a.length || b.width - a.width);
}

/** Full-width lengths beside the parts of a board that are gone, a kerf away from each, mm. */
function freeLengths(length: number, gone: readonly (readonly [number, number])[], kerf: number): number[] {
  const out: number[] = [];
  let from = 0;
  for (const [a, b] of [...gone].sort((p, q) => p[0] - q[0])) {
    if (a - kerf > from) out.push(roundMm(a - kerf - from));
    from = Math.max(from, b + kerf);
  }
  if (length > from) out.push(roundMm(length - from));
  return out;
}
