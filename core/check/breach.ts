/** What the judge says: a breach is a rule, a code with its figures, and a place. Sentences: words/en/check.ts. */
import type { XyMm } from "../plan/plan.ts";

type Figures = Record<string, string | number>;

/** Every code the judge can raise and the rule it speaks of. */
export const RULE_OF = {
  jobHash: "hash",
  frameAngle: "frame",
  notFinite: "format",
  idRepeated: "format",
  idUnknown: "format",
  outOfOrder: "format",
  rowMissing: "rows",
  rowStrip: "rows",
  rowGap: "rows",
  rowPieces: "rows",
  firstRow: "rows",
  ringNotSimple: "pieces",
  ringNotRounded: "pieces",
  pieceExtent: "pieces",
  pieceOutsideStrip: "pieces",
  spanDivided: "pieces",
  cutoutEnclosed: "pieces",
  outsideField: "field",
  overlap: "overlap",
  uncovered: "cover",
  pieceShort: "minPiece",
  pieceNarrow: "minRip",
  webThin: "minRip",
  endGap: "gaps",
  jointMissing: "joints",
  jointTwice: "joints",
  jointNoPair: "joints",
  jointMiddle: "joints",
  bondLength: "bond",
  bondShift: "bond",
  offLattice: "bond",
  latticeSkipped: "bond",
  stagger: "stagger",
  boardMissing: "boards",
  boardTwice: "boards",
  boardLength: "boards",
  boardStock: "boards",
  boardEmpty: "boards",
  partOutside: "boards",
  partShape: "boards",
  partTurned: "boards",
  partEnd: "boards",
  partKerf: "kerf",
  partOverlap: "overlap",
  offcutTaken: "boards",
  grooveMissing: "groove",
  edgeClaim: "groove",
  boundTooHigh: "bound",
  boundCheats: "bound",
  figure: "figures",
  clipOffSeam: "clips",
  clipKind: "clips",
  clipHolds: "clips",
  clipCount: "clips",
  clipEnd: "clipEnd",
  clipSpacing: "clipSpacing",
  clipTooClose: "clipsMeet",
  clipPlay: "clipPlay",
  jointClip: "jointClip",
  endClipMissing: "endClip",
  endClipPlace: "endClip",
  noDrill: "noDrill",
  slabEdge: "slabEdge",
  baseJoint: "baseJoint",
  heldByScrews: "held",
  screwRoom: "held",
  heldByTrim: "held",
  heldByClips: "held",
  oneEdge: "oneEdge",
  laidTwice: "laying",
  notLaid: "laying",
  clipNotSet: "laying",
  clipSetTwice: "laying",
  clipCovered: "laying",
  stepNumber: "laying",
  captive: "captive",
  takeoffMissing: "takeoff",
  takeoffNeed: "takeoff",
  takeoffSpare: "takeoff",
  takeoffOwned: "takeoff",
  takeoffPack: "takeoff",
  takeoffPrice: "takeoff",
  trimMissing: "takeoff",
  baseMissing: "verdict",
  plane: "verdict",
  zone: "verdict",
  straightedge: "verdict",
  verdict: "verdict",
  confirmation: "verdict",
  summaryLine: "findings",
} as const;

export type BreachCode = keyof typeof RULE_OF;
export interface Breach {
  rule: string;
  code: BreachCode;
  /** Site frame, mm; null where it concerns the whole plan. */
  at: XyMm | null;
  found: string | number | null;
  limit: string | number | null;
  data: Figures;
}
export interface Excuse {
  breach: Breach;
  /** Index into the plan's findings. */
  finding: number;
}
export interface CheckResult {
  ok: boolean;
  /** What nothing excuses. At most `MOST_LISTED` a code; `counts.unlisted` says how many more. */
  breaches: Breach[];
  excused: Excuse[];
  counts: {
    pieces: number;
    joints: number;
    clips: number;
    boards: number;
    breaches: number;
    excused: number;
    unlisted: number;
  };
  /** The one line a summary begins with. */
  summary: string;
}

/** Rules a finding may excuse; every other breach refuses the plan. */
export const EXCUSABLE: ReadonlySet<string> = new Set([
  "cover",
  "bond",
  "stagger",
  "minPiece",
  "minRip",
  "clips",
  "clipEnd",
  "clipSpacing",
  "jointClip",
  "endClip",
  "slabEdge",
  "baseJoint",
  "oneEdge",
  "captive",
]);
