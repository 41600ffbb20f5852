/** Rule 3, each piece by itself: a simple rounded ring, true extents, wide and long enough; and no two overlap. */
import { meet, thickerThan } from "../polygons.ts";
import { blame, type JudgedPiece, mm, type Scene, TOUCH } from "../scene.ts";
import { isSimple, stepsFor } from "../simple.ts";
import type { JudgedJoint } from "./joints.ts";

export function judgePieces(scene: Scene, joints: JudgedJoint[]): void {
  const { minPiece, minRip } = scene.job.bond;
  const jointed = new Set<JudgedPiece>();
  for (const joint of joints) {
    jointed.add(joint.left);
    jointed.add(joint.right);
  }
  for (const piece of scene.pieces) {
    const { source } = piece;
    const at: [number, number] = [(piece.u0 + piece.u1) / 2, (piece.v0 + piece.v1) / 2];
    const named = { piece: source.id, row: source.row };
    const length = mm(piece.u1 - piece.u0);
    const width = mm(piece.v1 - piece.v0);
    if (Math.abs(length - source.length) > 0.01) blame(scene, "pieceExtent", at, source.length, length, named);
    if (Math.abs(width - source.width) > 0.01) blame(scene, "pieceExtent", at, source.width, width, named);
    if (jointed.has(piece) && length < minPiece - 0.01) blame(scene, "pieceShort", at, length, minPiece, named);
    if (width < minRip - 0.01) blame(scene, "pieceNarrow", at, width, minRip, named);
    if (!rounded(source.ring) || !source.holes.every(rounded)) blame(scene, "ringNotRounded", at, null, 0.001, named);
  }
}

/**
 * Rings of pieces, and of parts on boards, that cross themselves or have too many holes. Comes before everything that cuts one ring by another;
 * true where all are simple.
 */
export function judgeRings(scene: Scene): boolean {
  const parts = scene.plan.boards.flatMap(({ parts }) => parts.filter((part) => part.ring !== null));
  let vertices = 0;
  for (const piece of scene.pieces) for (const path of piece.paths) vertices += path.length;
  for (const part of parts) vertices += part.ring!.length;
  const steps = stepsFor(vertices);
  let sound = true;
  const tell = (id: string, row: number, at: [number, number] | null): void => {
    blame(scene, "ringNotSimple", at, null, null, { piece: id, row });
    sound = false;
  };
  // A piece has no more holes than the site has cut-outs: a hole too many is one upon another.
  const mostHoles = scene.survey.cutouts.length;
  for (const piece of scene.pieces)
    if (!piece.plain && (piece.paths.length - 1 > mostHoles || !piece.paths.every((path) => isSimple(path, steps))))
      tell(piece.source.id, piece.source.row, [(piece.u0 + piece.u1) / 2, (piece.v0 + piece.v1) / 2]);
  for (const part of parts) {
    const path = part.ring!.map(([x, y]) => ({ x: Math.round(x * 1000), y: Math.round(y * 1000) }));
    if (!isSimple(path, steps)) tell(part.piece, scene.pieceOf.get(part.piece)?.source.row ?? 0, null);
  }
  return sound;
}

/** Whole thousandths of a millimetre, as far as a double can hold them at that distance. */
function rounded(ring: readonly (readonly [number, number])[]): boolean {
  const whole = (mm: number): boolean => Math.abs(mm * 1000 - Math.round(mm * 1000)) <= 1e-3 + Math.abs(mm) * 1e-12;
  return ring.every((p) => whole(p[0]) && whole(p[1]));
}

/** Overlaps told of: none is ever excused, so the rest would say no more. */
const MOST_OVERLAPS = 1000;
/** More pieces abreast than this in one strip no saw makes. */
const MOST_ABREAST = 200;

/**
 * Pieces of one strip, swept along u; strips do not meet, so no other pair can overlap. False where so many lie on each
 * other that it was left off: every other rule would drown in them.
 */
export function judgeOverlaps(scene: Scene): boolean {
  let found = 0;
  for (const row of scene.rows) {
    let open: JudgedPiece[] = [];
    for (const piece of row.pieces) {
      open = open.filter((other) => other.u1 > piece.u0 + TOUCH);
      for (const other of open) {
        if (Math.min(other.v1, piece.v1) - Math.max(other.v0, piece.v0) <= TOUCH) continue;
        if (!(other.plain && piece.plain) && thickerThan(meet(other.paths, piece.paths), TOUCH / 2).length === 0)
          continue;
        blame(scene, "overlap", [piece.u0, (piece.v0 + piece.v1) / 2], mm(other.u1 - piece.u0), 0, {
          piece: piece.source.id,
          other: other.source.id,
        });
        if (++found >= MOST_OVERLAPS) return false;
      }
      open.push(piece);
      if (open.length <= MOST_ABREAST) continue;
      blame(scene, "overlap", [piece.u0, (piece.v0 + piece.v1) / 2], mm(open[0]!.u1 - piece.u0), 0, {
        piece: piece.source.id,
        other: open[0]!.source.id,
      });
      return false;
    }
  }
  return true;
}
