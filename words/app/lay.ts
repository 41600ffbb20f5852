import type { CautionCode } from "../../core/stages/site/record.ts";

/** The lay step: read kneeling, in the sun. Figures come in as text. */
export interface LayWords {
  noRecord: string;
  noRows: string;
  row(number: string): string;
  of(count: string): string;
  before: string;
  next: string;
  nextOpen: string;
  showRow: string;
  first: string;
  last: string;
  laid(laid: string, all: string): string;
  whole(laid: string, all: string): string;
  left: string;
  right: string;
  /** Distance of the row's near edge from the datum, the same figure left and right, each to be measured. */
  line: string;
  far(mm: string): string;
  check: string;
  stretch(number: string, of: string): string;
  tick(piece: string): string;
  untick(piece: string): string;
  lies: string;
  tickRow: string;
  board: string;
  cut: Record<"none" | "left" | "right" | "both", string>;
  wholeBoard: string;
  ripped(mm: string, edge: "near" | "far" | "both"): string;
  when: Record<"ahead" | "measured", string>;
  marks: string;
  marksFrom(piece: string): string;
  lastMarks: string;
  notReleased: string;
  toBase: string;
  who: string;
  nobody: string;
  otherwise: string;
  cameOut: string;
  cameOutHint: string;
  beyond: string;
  short: string;
  onLine: string;
  more(what: string): string;
  less(what: string): string;
  enter: string;
  cancel: string;
  broke: string;
  brokeHint: string;
  wall: string;
  wallHint: string;
  side: string;
  sideName(number: string, kind: string): string;
  wallAt: readonly [string, string, string];
  into: string;
  away: string;
  offcut: string;
  offcutLength: string;
  offcutWidth: string;
  undo(what: string): string;
  nothingToUndo: string;
  did: {
    laid(piece: string): string;
    line(row: string): string;
    gap: string;
    broken(name: string): string;
    offcut(mm: string): string;
    hole: string;
    wall(side: string): string;
    level: string;
  };
  replanned: string;
  replanning: string;
  took(ms: string): string;
  unproved: string;
  take: string;
  keepPlan: string;
  taken: string;
  failed: string;
  /** What lies was laid by a plan that is no longer the job's. */
  otherPlan(pieces: string): string;
  carryOn: string;
  stale: string;
}

/** Points of care at the end; kept in the job with a name each. */
export const CARE = ["film", "endClips", "falls", "trims", "edges", "gully", "clean", "told"] as const;
export type Care = (typeof CARE)[number];

export interface HandoverWords {
  noRecord: string;
  laid: string;
  laidOf(laid: string, all: string, rows: string, ofRows: string): string;
  nothingLaid: string;
  measured: string;
  measuredNone: string;
  rowOff(row: string, left: string, right: string): string;
  beyond(mm: string): string;
  short(mm: string): string;
  onLine: string;
  spoilt(names: string): string;
  open: string;
  openCount(stops: string, warnings: string): string;
  openNone: string;
  declared: string;
  declaredNone: string;
  care: string;
  careHint: string;
  carePoint: Record<Care, string>;
  seenBy(by: string, on: string): string;
  who: string;
  nobody: string;
  cautions: string;
  caution: Record<CautionCode, string>;
  defer: string;
  notYet: string;
  notYetList: string;
}
