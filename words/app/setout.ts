import type { Held } from "../../core/stages/fixing/record.ts";

export type BondKind = "half" | "third" | "free" | "stack";
/** The set-out step. Figures come in as text; lengths with their unit where `mm` is not said. */
export interface SetoutWords {
  noRecord: string;
  direction: string;
  /** "along side 2", "across side 2", with the angle. */
  along(side: string, angle: string): string;
  across(side: string, angle: string): string;
  chosen: string;
  angle: string;
  degrees(angle: string): string;
  bond: string;
  kinds: Record<BondKind, string>;
  shift: string;
  firstRow: string;
  /** Beside a figure that Rowline chose. */
  choose: string;
  cannot: string;
  rules: string;
  gapFrom: string;
  gapTo: string;
  stagger: string;
  minPiece: string;
  minRip: string;
  why: string;
  variants: {
    head: string;
    hint: string;
    start: string;
    stop: string;
    left(count: number): string;
    columns: {
      way: string;
      cost: string;
      boards: string;
      cuts: string;
      rip: string;
      piece: string;
      findings: string;
    };
    way(kind: string, angle: string): string;
    boards(boards: string, least: string): string;
    cuts(cuts: string, rips: string): string;
    none: string;
    findings(stops: number, warnings: number): string;
    unbeaten: string;
    unpriced(count: number): string;
    take(way: string): string;
    now: string;
    old: string;
  };
  piece: {
    head(row: string, id: string): string;
    size: string;
    sizeOf(length: string, width: string): string;
    from: string;
    /** "b12, 1500 long, its left end 300 from the board's left end" */
    fromBoard(board: string, length: string, at: string, turned: boolean): string;
    whole(board: string): string;
    offcut(length: string, width: string): string;
    picture(board: string, parts: number): string;
    lower: string;
    upper: string;
    edges: Record<"groove" | "plain" | "ripped", string>;
    held: Record<Held, string>;
    edge(kind: string, held: string): string;
    clips(count: number): string;
    screws(count: number): string;
    ends: string;
    endsCut: Record<"none" | "left" | "right" | "both", string>;
    when: string;
    whenCut: Record<"ahead" | "measured" | "not", string>;
    lock(row: string): string;
    unlock(row: string): string;
    noJoints(row: string): string;
    lockedRows(rows: string): string;
    unlockAll: string;
    ask: string;
  };
}
