/** The plan file, `rowline/plan@1`. Lengths mm, rings rounded to 0.001 mm; meaning of every field as in ARCHITECTURE.md. */
import type { FindingLevel, Release } from "../base/finding.ts";

export type XyMm = [x: number, y: number];
export type XyzMm = [x: number, y: number, z: number];
export type Piece = {
  id: string;
  row: number;
  ring: XyMm[];
  holes: XyMm[][];
  length: number;
  width: number;
  ends: ["factory" | "cut", "factory" | "cut"];
  edges: ["groove" | "plain" | "ripped", "groove" | "plain" | "ripped"];
  heldBy: ["clips" | "screws" | "trim" | "none", "clips" | "screws" | "trim" | "none"];
  cutWhen: "ahead" | "measured";
  board: string;
};
export type Clip = {
  id: string;
  kind: "start" | "seam" | "last" | "end";
  seam: number;
  at: XyMm;
  play: [number, number];
  holds: string[];
};
export type Board = {
  id: string;
  length: number;
  parts: { piece: string; at: XyMm; size: XyMm; turned: boolean; ring: XyMm[] | null }[];
  offcuts: { at: XyMm; size: XyMm }[];
};
export type PlanFinding = {
  rule: string;
  code: string;
  level: FindingLevel;
  at: XyMm | null;
  found: number | string | null;
  limit: number | string | null;
  says: string;
  do: string;
  releasedBy: Release;
};
export type PlanFile = {
  format: "rowline/plan@1";
  /** First line of every summary: what is excused, or that nothing is. */
  summary: string;
  job: string;
  engine: string;
  defaults: string[];
  /** Why direction, start line, first row and joints are as they are: one sentence each. */
  reasons: { code: string; says: string }[];
  base: null | {
    plane: { fall: number; towards: number };
    zone: { fall: number; towards: number; halfWidth: number; points: XyzMm[] };
    straightedge: { length: number; gap: number; from: XyMm; to: XyMm; at: XyMm } | null;
    facets: { ring: XyMm[]; fall: number; towards: number; halfWidth: number }[];
    puddles: { at: XyMm; depth: number; area: number; volume: number }[];
    preparation: {
      option: "none" | "patch" | "plane" | "facets";
      grind: number;
      fill: number;
      mass: number;
      cost: number;
      planes: { a: number; b: number; c: number }[];
      why: string;
    }[];
    verdict: "accept" | "prepare" | "not-proven" | "stop";
  };
  frame: { origin: XyMm; angle: number };
  bond: { kind: "half" | "third" | "free" | "stack"; length: number; phase: number; sideGap: number };
  rows: { row: number; v: [number, number]; pieces: string[] }[];
  pieces: Piece[];
  joints: { row: number; u: number; pieces: [string, string] }[];
  clips: Clip[];
  screws: { piece: string; edge: 0 | 1; at: XyMm }[];
  boards: Board[];
  laying: { step: number; piece: string; clipsBefore: string[]; clipsAfter: string[] }[];
  trims: { side: number; parts: { from: XyMm; to: XyMm; length: number }[] }[];
  /**
   * need: what is drawn. `ceil` here is of the figure less 1e-9.
   * spare of boards, over the whole job: max(spares.boardsAtLeast, ceil(spares.boards x plain + spares.boardsSlanting x slanting));
   *   slanting counts the boards that carry a part of a piece with an edge running more than 1 mm both along and across
   *   the rows (after rounding to 0.001 mm: who checks lets edges between 0.99 and 1.01 mm go either way), plain the others.
   *   All of it is on the longest length used; what its stock does not give, on the next shorter; the rest is missing
   *   (finding spareStock).
   * spare of each clip-*: ceil(spares.clips x need); of each fixing-*, screw, trim-screw: ceil(spares.fixings x need); else 0.
   * fixing-<least length>: together clips x holes a clip. trim-<length>: stock lengths out of which all `trims` parts can
   *   be cut a kerf apart. trim-screw: max(2, ceil(length / screwSpacing) + 1) a part. bit: ceil(holes / 100).
   * trims: every open side; lengths along the outline, less the neighbour's gap at an end that does not meet an open side.
   * pack: board.lengths[].pack (1 where a stock at hand is given), job.packs[item or family], else 1.
   * owned (boards; left out where 0) = min(board.lengths[].owned, its stock, need + spare): taken from the fitter's yard.
   * buy = ceil((need + spare - owned) / pack) x pack. figures.total = sum of round(buy x price) over priced lines.
   */
  takeoff: {
    item: string;
    name: string;
    unit: string;
    need: number;
    spare: number;
    pack: number;
    buy: number;
    owned?: number;
    price: number | null;
  }[];
  figures: {
    area: number;
    boards: number;
    boardsAtLeast: number;
    /** `by`: the lines a piece's demand is measured on, scope "pieces": all alike, the grooved edges, the middle line. */
    bound: { scope: "pieces" | "joints"; by?: "area" | "edges" | "middle"; scale: number; duals: [number, number][] };
    cuts: number;
    rips: number;
    waste: number;
    mass: number;
    clips: { start: number; seam: number; last: number; end: number };
    total: number;
  };
  findings: PlanFinding[];
};
