import { TOLERANCE } from "../core/base/tolerances.ts";
import type { PlanRecord } from "../core/plan/record.ts";
import type { Piece } from "../core/stages/bond/record.ts";

/** How a piece is cut: what the saw list and the row cards say of it. Whole mm, rounded down to `cut.cutTo`. */
export interface Cut {
  piece: number;
  id: string;
  row: number;
  boardId: string;
  boardMm: number;
  /** Left end of the piece on its board, mm. */
  atMm: number;
  turned: boolean;
  /** Greatest length: where the saw's stop is set. */
  stopMm: number;
  /** Width where it is ripped, else null. */
  ripMm: number | null;
  /** tapered: four corners, and a rip that does not run along the row. */
  shape: "square" | "slanting" | "tapered" | "shaped";
  /** Widths at the left and right end where the rip is tapered, else null. */
  taperMm: [number, number] | null;
  /** The edge a rip takes off, as the piece lies in its row; null where none is. */
  ripped: "near" | "far" | "both" | null;
  /** Lengths along the lower and upper edge; those of a square piece are its stop. */
  nearMm: number;
  farMm: number;
  /** How far the upper edge's end lies along the row from the lower edge's: positive to the right. */
  leanLeftMm: number;
  leanRightMm: number;
  /** Ends that a saw makes, left and right. */
  cutEnds: "none" | "left" | "right" | "both";
  when: "ahead" | "measured";
  /** The board as it came. */
  whole: boolean;
}

/** Every piece as it is cut, in the plan's order. Cost: the points of all rings. */
export function cutsOf(record: PlanRecord): Cut[] {
  const { bond, cutting, job } = record;
  return bond.pieces.map((piece, i) => {
    const board = cutting.boards[cutting.boardOf[i]!]!;
    const part = board.parts.find((p) => p.piece === i)!;
    const floor = (um: number): number => floorTo(um, job.cut.cutTo);
    const form = formOf(piece, Math.max(SLIGHT_UM, Math.min(job.cut.cutTo, TOLERANCE.gapOverMm) * 1000));
    const [left, right] = cutting.ends[i]!;
    const ripped = piece.edges.includes("ripped") || piece.widthUm < record.setout.boardWidthUm;
    return {
      piece: i,
      id: piece.id,
      row: piece.row,
      boardId: board.id,
      boardMm: board.lengthUm / 1000,
      atMm: Math.round(part.at[0] / 1000),
      turned: part.turned,
      stopMm: floor(
        form.shape === "square" || form.shape === "tapered" ? Math.min(form.nearUm, form.farUm) : piece.lengthUm,
      ),
      ripMm: ripped ? floor(piece.widthUm) : null,
      shape: form.shape,
      taperMm: form.endsUm && [floor(form.endsUm[0]), floor(form.endsUm[1])],
      ripped: rippedEdge(piece, ripped),
      nearMm: floor(form.nearUm),
      farMm: floor(form.farUm),
      leanLeftMm: Math.round(form.leanLeftUm / 1000) + 0,
      leanRightMm: Math.round(form.leanRightUm / 1000) + 0,
      cutEnds: left === "cut" ? (right === "cut" ? "both" : "left") : right === "cut" ? "right" : "none",
      when: piece.cutWhen,
      whole: left === "factory" && right === "factory" && !ripped && piece.plain && piece.lengthUm === board.lengthUm,
    };
  });
}

/** Micrometres as millimetres, rounded down to a step in mm. */
export function floorTo(um: number, stepMm: number): number {
  return Math.floor(um / (stepMm * 1000) + 1e-9) * stepMm;
}

interface Form {
  shape: Cut["shape"];
  nearUm: number;
  farUm: number;
  leanLeftUm: number;
  leanRightUm: number;
  /** Widths at both ends of a tapered piece. */
  endsUm: [number, number] | null;
}

function rippedEdge(piece: Piece, ripped: boolean): Cut["ripped"] {
  const [near, far] = piece.edges.map((edge) => edge === "ripped");
  if (!ripped || (!near && !far)) return null;
  return near && far ? "both" : near ? "near" : "far";
}

/**
 * A piece whose corners all lie on its lower and upper edge is square or slanting; any other is shaped. A shaped piece
 * has the figures of its edges too, where it touches both; a bare corner there counts with the length 0.
 */
function formOf(piece: Piece, slightUm: number): Form {
  const whole: Form = {
    shape: "square",
    nearUm: piece.lengthUm,
    farUm: piece.lengthUm,
    leanLeftUm: 0,
    leanRightUm: 0,
    endsUm: null,
  };
  if (piece.plain) return whole;
  const near = piece.region.outer.filter(([, v]) => v === piece.v0Um).map(([u]) => u);
  const far = piece.region.outer.filter(([, v]) => v === piece.v1Um).map(([u]) => u);
  const taper = taperOf(piece, slightUm);
  if (taper) return taper;
  if (near.length === 0 || far.length === 0) return { ...whole, shape: "shaped" };
  const [n0, n1, f0, f1] = [Math.min(...near), Math.max(...near), Math.min(...far), Math.max(...far)];
  const figures = { nearUm: n1 - n0, farUm: f1 - f0, leanLeftUm: f0 - n0, leanRightUm: f1 - n1, endsUm: null };
  const cornersOnEdges = near.length + far.length === piece.region.outer.length;
  if (!cornersOnEdges || near.length < 2 || far.length < 2 || piece.region.holes.length > 0) {
    return { shape: "shaped", ...figures };
  }
  const slight = Math.abs(figures.leanLeftUm) < slightUm && Math.abs(figures.leanRightUm) < slightUm;
  return slight ? squared(n0, n1, f0, f1) : { shape: "slanting", ...figures };
}

/** The square cut that lies within both edges: its gaps only grow. */
function squared(n0: number, n1: number, f0: number, f1: number): Form {
  const lengthUm = Math.min(n1, f1) - Math.max(n0, f0);
  return { shape: "square", nearUm: lengthUm, farUm: lengthUm, leanLeftUm: 0, leanRightUm: 0, endsUm: null };
}

/** An end that leans less than this over the board's width is sawn square (or less than the saw is set to, as far as an edge gap may grow), um. */
const SLIGHT_UM = 1000;

/** Least difference of the widths at both ends that is worth two figures, um: what an edge gap may fall short by. */
const TAPER_UM = 250;

/**
 * A piece of four corners, two on its grooved edge, whose other edge is a rip that runs at a slant: a wall not parallel to
 * the rows. Null for any other. Less slant than that is cut as a plain rip.
 */
function taperOf(piece: Piece, slightUm: number): Form | null {
  const { outer, holes } = piece.region;
  if (outer.length !== 4 || holes.length > 0) return null;
  for (const side of [0, 1] as const) {
    const lineUm = side === 0 ? piece.v0Um : piece.v1Um;
    if (piece.edges[1 - side] !== "ripped") continue;
    const square = outer.filter(([, v]) => v === lineUm).sort((a, b) => a[0] - b[0]);
    const other = outer.filter(([, v]) => v !== lineUm).sort((a, b) => a[0] - b[0]);
    if (square.length !== 2 || other[0]![1] === other[1]![1]) continue;
    const [s0, s1, o0, o1] = [square[0]![0], square[1]![0], other[0]![0], other[1]![0]];
    // Slanting ends beside the slanting rip leave no pair of ends to measure at.
    if (Math.abs(o0 - s0) > piece.widthUm || Math.abs(o1 - s1) > piece.widthUm) continue;
    const endsUm: [number, number] = [Math.abs(other[0]![1] - lineUm), Math.abs(other[1]![1] - lineUm)];
    const [n0, n1, f0, f1] = side === 0 ? [s0, s1, o0, o1] : [o0, o1, s0, s1];
    const figures = { nearUm: n1 - n0, farUm: f1 - f0, leanLeftUm: f0 - n0, leanRightUm: f1 - n1 };
    const slight = Math.abs(figures.leanLeftUm) < slightUm && Math.abs(figures.leanRightUm) < slightUm;
    const wide = Math.abs(endsUm[0] - endsUm[1]) >= TAPER_UM;
    if (!slight) return { shape: "slanting", ...figures, endsUm: wide ? endsUm : null };
    const straight = squared(n0, n1, f0, f1);
    return wide ? { ...straight, shape: "tapered", endsUm } : straight;
  }
  return null;
}
