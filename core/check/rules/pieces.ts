/** Rule 3, each piece by itself: a simple rounded ring, true extents, wide and long enough; and no two overlap. */
import { meet, type Path, thickerThan } from "../polygons.ts";
import { blame, type JudgedPiece, mm, type Scene, TOUCH } from "../scene.ts";
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
    if (!piece.plain && !piece.paths.every(simple)) blame(scene, "ringNotSimple", at, null, null, named);
  }
}

/** Whole thousandths of a millimetre, as far as a double can hold them at that distance. */
function rounded(ring: readonly (readonly [number, number])[]): boolean {
  const whole = (mm: number): boolean => Math.abs(mm * 1000 - Math.round(mm * 1000)) <= 1e-3 + Math.abs(mm) * 1e-12;
  return ring.every((p) => whole(p[0]) && whole(p[1]));
}

/** No two edges of the ring cross and no point is met twice; quadratic, and rings of one piece are short. */
function simple(ring: Path): boolean {
  const n = ring.length;
  if (n < 3) return false;
  for (let i = 0; i < n; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % n]!;
    if (a.x === b.x && a.y === b.y) return false;
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      const c = ring[j]!;
      const d = ring[(j + 1) % n]!;
      if (Math.max(a.x, b.x) < Math.min(c.x, d.x) || Math.max(c.x, d.x) < Math.min(a.x, b.x)) continue;
      if (Math.max(a.y, b.y) < Math.min(c.y, d.y) || Math.max(c.y, d.y) < Math.min(a.y, b.y)) continue;
      const side = (p: { x: number; y: number }, q: { x: number; y: number }, r: { x: number; y: number }): number =>
        (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
      const s1 = side(a, b, c);
      const s2 = side(a, b, d);
      const s3 = side(c, d, a);
      const s4 = side(c, d, b);
      if (((s1 > 0 && s2 < 0) || (s1 < 0 && s2 > 0)) && ((s3 > 0 && s4 < 0) || (s3 < 0 && s4 > 0))) return false;
    }
  }
  return true;
}

/** Pieces of one strip, swept along u; strips do not meet, so no other pair can overlap. */
export function judgeOverlaps(scene: Scene): void {
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
      }
      open.push(piece);
    }
  }
}
