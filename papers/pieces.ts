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
  shape: "square" | "slanting" | "shaped";
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
    const form = formOf(piece);
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
      stopMm: floor(form.shape === "square" ? Math.min(form.nearUm, form.farUm) : piece.lengthUm),
      ripMm: ripped ? floor(piece.widthUm) : null,
      shape: form.shape,
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
}

/**
 * A piece whose corners all lie on its lower and upper edge is square or slanting; any other is shaped. A shaped piece
 * has the figures of its edges too, where it touches both; a bare corner there counts with the length 0.
 */
function formOf(piece: Piece): Form {
  const whole: Form = { shape: "square", nearUm: piece.lengthUm, farUm: piece.lengthUm, leanLeftUm: 0, leanRightUm: 0 };
  if (piece.plain) return whole;
  const near = piece.region.outer.filter(([, v]) => v === piece.v0Um).map(([u]) => u);
  const far = piece.region.outer.filter(([, v]) => v === piece.v1Um).map(([u]) => u);
  if (near.length === 0 || far.length === 0) return { ...whole, shape: "shaped" };
  const [n0, n1, f0, f1] = [Math.min(...near), Math.max(...near), Math.min(...far), Math.max(...far)];
  const figures = { nearUm: n1 - n0, farUm: f1 - f0, leanLeftUm: f0 - n0, leanRightUm: f1 - n1 };
  const cornersOnEdges = near.length + far.length === piece.region.outer.length;
  if (!cornersOnEdges || near.length < 2 || far.length < 2 || piece.region.holes.length > 0) {
    return { shape: "shaped", ...figures };
  }
  const slight = Math.abs(figures.leanLeftUm) < 500 && Math.abs(figures.leanRightUm) < 500;
  return { shape: slight ? "square" : "slanting", ...figures };
}
