import type { Board, PlanFile } from "../plan/plan.ts";
import type { Kept } from "./kept.ts";
import type { ProgressState } from "./state.ts";

export interface Needed {
  /** Whole boards still to be taken, by length, longest first. */
  boards: { length: number; count: number }[];
  /** Pieces that come out of what is left at hand instead of a whole board, and what they come from, mm. */
  fromOffcuts: { piece: string; length: number; from: number }[];
}

/**
 * What is still needed for the new plan: its boards that hold no piece that lies. Pieces planned beside one that lies come
 * from that board's rest where the board was cut as the new plan has it; else from lengths at hand, or from a board
 * more. Single short pieces come from lengths at hand too, where those do. Full-width lengths alone count: a ripped one
 * may lack the groove. `same`: old id to new id of what lies; `kerf` and `width` in mm. O(parts x lengths at hand).
 */
export function neededFor(
  plan: PlanFile,
  old: PlanFile,
  kept: Kept,
  state: ProgressState,
  same: ReadonlyMap<string, string>,
  kerf: number,
  width: number,
): Needed {
  const lies = new Map([...same].map(([before, now]) => [now, before]));
  const oldBoard = new Map(old.boards.flatMap((board) => board.parts.map((part) => [part.piece, board] as const)));
  const whole: Board[] = [];
  const beside: { piece: string; length: number }[] = [];
  const asCut = new Set<string>();
  for (const board of plan.boards) {
    const laid = board.parts.filter((part) => lies.has(part.piece));
    if (laid.length === 0) {
      whole.push(board);
      continue;
    }
    const real = oldBoard.get(lies.get(laid[0]!.piece)!);
    const open = board.parts.filter((part) => !lies.has(part.piece));
    if (open.length === 0) continue;
    if (real && alike(real, board) && !spoilt(real, state)) asCut.add(real.id);
    else for (const part of open) beside.push({ piece: part.piece, length: part.size[0] });
  }
  const pool = kept.offcuts
    .filter((one) => one.width >= width - 0.001 && !(one.from !== null && asCut.has(one.from)))
    .map((one) => one.length)
    .sort((a, b) => a - b);
  const needed: Needed = { boards: [], fromOffcuts: [] };
  const take = (piece: string, length: number): boolean => {
    const at = pool.findIndex((one) => one >= length);
    if (at < 0) return false;
    const from = pool.splice(at, 1)[0]!;
    needed.fromOffcuts.push({ piece, length, from });
    if (from - length - kerf > 0) pool.push(from - length - kerf);
    pool.sort((a, b) => a - b);
    return true;
  };
  const more: number[] = [];
  for (const one of beside.sort((a, b) => b.length - a.length)) if (!take(one.piece, one.length)) more.push(one.length);
  const counts = new Map<number, number>();
  const count = (length: number) => counts.set(length, (counts.get(length) ?? 0) + 1);
  const single = (board: Board) => board.parts.length === 1 && board.parts[0]!.size[0] < board.length;
  const short = whole.filter(single).sort((a, b) => b.parts[0]!.size[0] - a.parts[0]!.size[0]);
  for (const board of whole) if (!single(board)) count(board.length);
  for (const board of short) if (!take(board.parts[0]!.piece, board.parts[0]!.size[0])) count(board.length);
  const longest = Math.max(0, ...plan.boards.map((board) => board.length));
  for (let n = firstFit(more, longest, kerf); n > 0; n--) count(longest);
  needed.boards = [...counts].map(([length, n]) => ({ length, count: n })).sort((a, b) => b.length - a.length);
  return needed;
}

/** The same parts in the same places: what the new plan takes from a board that is already cut is really there. */
function alike(a: Board, b: Board): boolean {
  const parts = (board: Board): string =>
    board.parts
      .map((part) => [...part.at, ...part.size].join(" "))
      .sort()
      .join("/");
  return a.length === b.length && parts(a) === parts(b);
}

function spoilt(board: Board, state: ProgressState): boolean {
  return state.broken.boards.has(board.id) || board.parts.some((part) => state.broken.pieces.has(part.piece));
}

/** Boards for pieces, longest first. */
function firstFit(lengths: readonly number[], board: number, kerf: number): number {
  const rest: number[] = [];
  for (const length of lengths) {
    const at = rest.findIndex((one) => one >= length);
    if (at < 0) rest.push(board - length - kerf);
    else rest[at] = rest[at]! - length - kerf;
  }
  return rest.length;
}
