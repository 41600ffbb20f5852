/** The cut step. Figures come in as text, mm. */
export interface CutWords {
  noRecord: string;
  boards(boards: string, pieces: string): string;
  bound: Record<"met" | "over", (boards: string, least: string) => string>;
  /** What the bound proves: for these pieces, or over all legal joints. */
  scope: Record<"pieces" | "joints", string>;
  saw(cuts: string, rips: string): string;
  waste(m2: string, percent: string): string;
  stops: string;
  stopsHint: string;
  measured: string;
  measuredHint: string;
  none: string;
  columns: { stop: string; rip: string; count: string; pieces: string };
  /** Lengths along the lower and the upper edge. */
  slanting(near: string, far: string): string;
  shaped: string;
  show(piece: string): string;
  byBoard: string;
  byBoardHint(whole: number): string;
  board(id: string, length: string): string;
  part(id: string, stop: string, rip: string | null): string;
  rest: string;
  restNone: string;
  picture(board: string, parts: number): string;
  more(count: number): string;
}
