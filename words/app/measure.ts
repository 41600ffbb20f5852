import type { SideKind } from "../../core/job/job.ts";
import type { LengthWhy } from "../../core/measure/length.ts";

export type MeasurePart = "outline" | "tapes" | "sides" | "things" | "levels" | "bring";
export type ThingKind = "post" | "gully" | "noDrill" | "keepClear" | "loose";

/** The measure step. Figures come in as text with their unit. */
export interface MeasureWords {
  parts: string;
  part: Record<MeasurePart, string>;
  outline: {
    start: string;
    startAgain: string;
    keepOld: string;
    /** What the next typed length is: "Side A–B, along the start line". */
    side(from: string, to: string): string;
    turnQuestion: string;
    turn: Record<"left" | "right" | "straight", string>;
    walked(count: number): string;
    takeBack: string;
    closeSquare(sides: string): string;
    closeSlant(side: string): string;
    closeDone: string;
    /** Shown where no way closes the outline yet. */
    goOn: string;
    corner(name: string): string;
    corners: string;
    moveCorner: string;
    x: string;
    y: string;
    /** Corners follow the tapes; to move one, the shape has to be kept first. */
    byTapes: string;
    fixShape: string;
    addCorner: string;
    dropCorner: string;
  };
  tapes: {
    hint: string;
    tape(from: string, to: string): string;
    from: string;
    to: string;
    /** Off against the drawing or the adjusted shape. */
    off(mm: string): string;
    fits: string;
    doubtful: string;
    doubtfulSays(from: string, to: string, measured: string, should: string): string;
    more(count: number): string;
    take: string;
    taken(redundancy: number): string;
    remove(from: string, to: string): string;
    arcs: string;
  };
  sides: {
    hint: string;
    side(from: string, to: string, length: string): string;
    kind: string;
    kinds: Record<SideKind, string>;
    sill: string;
    opens: string;
    opensIn: string;
    opensOut: string;
    opensNot: string;
    leafClear: string;
    gap: string;
    gapUsual: string;
    notSaid: string;
    arc: string;
    arcHint: string;
    straight: string;
    arcTooHigh(limit: string): string;
    part: string;
    partHint(from: string): string;
    partFrom: string;
    partWide: string;
    partKind: string;
    partTooLong(length: string): string;
    noTapesHere: string;
    previous: string;
    next: string;
  };
  things: {
    hint: string;
    kinds: Record<ThingKind, string>;
    add: Record<ThingKind, string>;
    fromWall: string;
    toWall: string;
    distance: string;
    along: string;
    deep: string;
    across: string;
    round: string;
    square: string;
    shape: string;
    sameWay: string;
    remove(name: string): string;
    none: string;
    needShape: string;
    outside: string;
  };
  levels: {
    way: string;
    staff: string;
    height: string;
    instrument: string;
    instrumentHint: string;
    benchReading: string;
    spacing: string;
    nextPoint(at: string, done: number, of: number): string;
    allRead: string;
    reading: string;
    heightOf: string;
    /** "1 342 on the staff: 108 below the bench mark" */
    staffSays(staff: string, level: string): string;
    staffTwo(one: string, other: string): string;
    staffUnclear: string;
    above(mm: string): string;
    below(mm: string): string;
    level: string;
    elsewhere: string;
    list(count: number): string;
    remove(at: string): string;
    takeBack: string;
    straightedge: string;
    straightedgeHint: string;
    startX: string;
    startY: string;
    direction: string;
    alongX: string;
    alongY: string;
    edgeLength: string;
    gapUnder: string;
    edges(count: number): string;
    edgeAt(at: string, gap: string): string;
    add: string;
  };
  drag: { on: string; off: string; hint: string };
}

/** The number pad. */
export interface PadWords {
  pad(what: string): string;
  units: string;
  unit: Record<"mm" | "cm" | "m" | "ft", string>;
  next: string;
  minus: string;
  back: string;
  same(value: string): string;
  feet: string;
  inches: string;
  space: string;
  over: string;
  /** "6 ft 2 3/8 in" */
  imperial(feet: string, inches: string, fraction: string | null): string;
  equals(typed: string, mm: string): string;
  mm(figure: string): string;
  why(why: LengthWhy, readings: string[]): string;
  noMinus: string;
}
