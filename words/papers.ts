/** The labels and sentences of the papers, one object a language. Figures come in already written (words.ts, Figures). */
export interface PaperWords {
  page(number: number, of: number): string;
  job: string;
  plan: string;
  row: string;
  yes: string;
  no: string;
  /** What stands behind every paper: what is measured, what is assumed, what is checked. */
  basis(counts: { levels: number; straightedges: number; ties: number; defaults: number }): string;
  notReleased: string;
  /** An item of the take-off in words, from its code and designation. */
  item(code: string, name: string, sizes: { diameter: string; length: string; bag: string | null }): string;
  unit: Record<"pc" | "m" | "m2" | "l" | "kg" | "bag", string>;
  order: {
    title: string;
    item: string;
    what: string;
    need: string;
    spare: string;
    pack: string;
    owned: string;
    ownedNote: string;
    buy: string;
    unit: string;
    price: string;
    sum: string;
    total(money: string): string;
    unpriced(list: string): string;
    rounding: string;
    spares(boards: string, slanting: string, least: string, clips: string, fixings: string): string;
    noTax: string;
    currency: string;
  };
  cuts: {
    title: string;
    how(to: string, kerf: string): string;
    whole(count: string): string;
    ahead: string;
    aheadNote: string;
    measured: string;
    measuredNote: string;
    none: string;
    boards: string;
    boardsNote: string;
    stop: string;
    rip: string;
    count: string;
    pieces: string;
    shape: string;
    left: string;
    right: string;
    slanting: string;
    /** How ripped widths are said. */
    ripNote: string;
    ripLeft: string;
    ripRight: string;
    /** Heading of the edge a rip takes off, and its words. */
    off: string;
    edges: Record<"near" | "far" | "both", string>;
    done: string;
    piece: string;
    board: string;
    boardLength: string;
    at: string;
    width: string;
    near: string;
    far: string;
    when: string;
    cutEnds: string;
    parts: string;
    rest: string;
    turned: string;
    shaped: string;
    shapeWords: Record<"square" | "slanting" | "tapered" | "shaped", string>;
    whenWords: Record<"ahead" | "measured", string>;
    ends: Record<"none" | "left" | "right" | "both", string>;
  };
  stakes: {
    title: string;
    noLevels: string;
    noOption: string;
    option(name: string, cost: string): string;
    optionWords: Record<"none" | "patch" | "plane" | "facets", string>;
    how: string;
    number: string;
    x: string;
    y: string;
    now: string;
    shall: string;
    change: string;
    work: string;
    done: string;
    grind: string;
    fill: string;
    keep: string;
    material(name: string, litres: string, bags: string | null): string;
    more(count: string): string;
    /** Readings at which nothing is to be done. */
    kept(count: string): string;
  };
  cards: {
    title: string;
    row(number: string): string;
    card(number: string, of: string): string;
    first: string;
    last: string;
    /** The row's edges from the datum: the same at both ends by design, to be measured at both. */
    line(near: string, far: string): string;
    stance: string;
    zero(piece: string, from: { row: string; mm: string; side: "left" | "right" | "flush" } | null): string;
    /** The clips of the near edge come before the row. */
    nearFirst: string;
    lastClips: string;
    lastClipsHow: string;
    endClips(list: string): string;
    noEndClips: string;
    shaped: string;
    depth(mm: string): string;
    depths(list: string): string;
    depthPart(from: string, to: string, mm: string): string;
    tiles: string;
    noDrill: string;
    check(near: string, far: string): string;
    number: string;
    piece: string;
    length: string;
    cutEnd: string;
    groove: string;
    from: string;
    when: string;
    ends: Record<"none" | "left" | "right" | "both", string>;
    grooves: Record<"both" | "near" | "far" | "none", string>;
    whenWords: Record<"ahead" | "measured", string>;
    boxLineLeft: string;
    boxLineRight: string;
    boxGapLeft: string;
    boxGapRight: string;
    boxBy: string;
    foot: string;
    screws(list: string): string;
    wholeBoard: string;
  };
  findings: { title: string; how: string; none: string; more(count: string): string };
  summary: SummaryWords;
}

export interface SummaryWords {
  title: string;
  verdict: Record<"accept" | "prepare" | "not-proven" | "stop" | "unknown", string>;
  figures: string;
  net: string;
  gross: string;
  rowsPieces: string;
  boards(count: string, least: string): string;
  boardsLabel: string;
  clips: string;
  clipsOf(start: string, seam: string, last: string, end: string): string;
  holes: string;
  cutsLabel: string;
  cuts(count: string, rips: string): string;
  metres: string;
  waste: string;
  weight: string;
  weightOf(kg: string, perM2: string): string;
  total: string;
  totalOf(money: string, unpriced: number): string;
  preparation: string;
  prepared(option: string, cost: string, low: string, high: string, kg: string): string;
  unprepared: string;
  nothingMoved: string;
  noPreparation: string;
  hours: string;
  /** `lowDays` one person's, `highDays` two people's. */
  hoursOf(low: string, high: string, lowDays: string, highDays: string): string;
  hoursHow: string;
  doors: string;
  /** `step`: how far the sill stands above the new floor, or the floor above the sill where `over`. */
  door(side: string, sill: string | null, step: string | null, over: boolean, leaf: string | null): string;
  rise(mm: string): string;
  findings: string;
  finding(says: string, doThis: string, count: number, place: string | null): string;
  levels: Record<"stop" | "warn" | "note", string>;
  noFindings: string;
  moreFindings(count: string): string;
  remediesElsewhere: string;
  cautions: string;
  caution: Record<CautionKey, string>;
  defer: string;
  /** Heading over the reasons for direction, first row and joints. */
  why: string;
  assumptions: string;
  assumed(list: string): string;
  values(mm: {
    side: string;
    end: string;
    edge: string;
    clear: string;
    between: "clear" | "centre";
    kerf: string;
  }): string;
  noAssumptions: string;
  exclusions: string;
  excluded: string;
  releasedBy: Record<"reading" | "person" | "document", string>;
}

export type CautionKey =
  | "silica"
  | "compositeDust"
  | "saw"
  | "services"
  | "rcd"
  | "edgeHeight"
  | "load"
  | "slips"
  | "poolSlips"
  | "hotSurface"
  | "lifting"
  | "wetCement"
  | "vibration"
  | "peopleBelow"
  | "asbestos"
  | "film";
