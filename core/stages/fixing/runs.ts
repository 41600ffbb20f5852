import type { BondRecord, Joint, Piece } from "../bond/record.ts";
import type { ClipRules } from "./rules.ts";

/** An unbroken run of grooved edge on a seam. All lengths whole micrometres of u. */
export interface Run {
  piece: number;
  /** Place of the run in its track; parts of a divided run keep it. */
  index: number;
  /** The run itself. */
  a: number;
  b: number;
  /** Where an anchor holds it: a .. b, and on to the far side of a joint clip's place. */
  lo: number;
  hi: number;
  /** Clips it needs. */
  need: number;
  /** Where its first clip must stand at the latest and its last at the earliest: under a neighbour's row, and alone. */
  openSeam: number;
  openAlone: number;
  closeSeam: number;
  closeAlone: number;
}
/** A joint whose two pieces both have their groove on this seam. */
export interface SeamJoint {
  uUm: number;
  track: 0 | 1;
  left: Run;
  right: Run;
}
/** Seam k lies below row k: the runs of row k by their lower edge, of row k - 1 by their upper edge. */
export interface Seam {
  seam: number;
  vUm: number;
  /** Marks are measured from here. */
  datumUm: number;
  tracks: [Run[], Run[]];
  joints: SeamJoint[];
  /** Joints with a groove beside them too short for one clip to hold both; a run is null where it needs no clip. */
  shortJoints: { uUm: number; track: 0 | 1; left: Run | null; right: Run | null }[];
}
/** Ring points this near the strip's line lie on it, um. */
const ON_LINE_UM = 10;
/** A groove that ends this far beyond the end gap from a joint's middle still reaches the joint, um. */
const REACH_UM = 1000;

/** The runs of a piece on its lower (0) or upper (1) edge, by u. Cost: the piece's vertices; one step where it is plain. */
export function groovedRuns(piece: Piece, edge: 0 | 1): { a: number; b: number }[] {
  if (piece.edges[edge] !== "groove") return [];
  const line = edge === 0 ? piece.stripV0Um : piece.stripV1Um;
  if (piece.plain) {
    const at = edge === 0 ? piece.v0Um : piece.v1Um;
    return Math.abs(at - line) <= ON_LINE_UM ? [{ a: piece.u0Um, b: piece.u1Um }] : [];
  }
  const parts: { a: number; b: number }[] = [];
  for (const ring of [piece.region.outer, ...piece.region.holes]) {
    for (let i = 0; i < ring.length; i++) {
      const [u0, v0] = ring[i]!;
      const [u1, v1] = ring[(i + 1) % ring.length]!;
      if (Math.abs(v0 - line) > ON_LINE_UM || Math.abs(v1 - line) > ON_LINE_UM || u0 === u1) continue;
      parts.push({ a: Math.min(u0, u1), b: Math.max(u0, u1) });
    }
  }
  parts.sort((p, q) => p.a - q.a);
  const runs: { a: number; b: number }[] = [];
  for (const part of parts) {
    const last = runs[runs.length - 1];
    if (last && part.a <= last.b) last.b = Math.max(last.b, part.b);
    else runs.push(part);
  }
  return runs;
}

/** All runs and joints of a seam. `below` and `above` are the indices of the pieces of row seam - 1 and seam. */
export function seamOf(
  seam: number,
  vUm: number,
  datumUm: number,
  bond: BondRecord,
  above: readonly number[],
  below: readonly number[],
  joints: readonly Joint[],
  rules: ClipRules,
): Seam {
  const tracks: [Run[], Run[]] = [trackOf(bond, above, 0, rules), trackOf(bond, below, 1, rules)];
  const out: Seam = { seam, vUm, datumUm, tracks, joints: [], shortJoints: [] };
  for (const joint of joints) {
    const row = joint.row === seam ? 0 : 1;
    const pieces = [bond.pieces[joint.left]!, bond.pieces[joint.right]!] as const;
    if (pieces[0].edges[row] !== "groove" || pieces[1].edges[row] !== "groove") continue;
    const at = firstFrom(tracks[row], joint.uUm - 2);
    const left = tracks[row][at - 1] ?? null;
    const right = tracks[row][at] ?? null;
    const reach = rules.endGap + REACH_UM;
    if (!left || left.piece !== joint.left || left.b < joint.uUm - reach) continue;
    if (!right || right.piece !== joint.right || right.a > joint.uUm + reach) continue;
    const enough = 2 * rules.grip + rules.endGap;
    if (left.b - left.a >= enough && right.b - right.a >= enough) {
      left.hi = Math.max(left.b, joint.uUm + rules.grip);
      right.lo = Math.min(right.a, joint.uUm - rules.grip);
      out.joints.push({ uUm: joint.uUm, track: row, left, right });
    } else {
      const long = (run: Run): Run | null => (run.need > 0 ? run : null);
      out.shortJoints.push({ uUm: joint.uUm, track: row, left: long(left), right: long(right) });
    }
  }
  out.joints.sort((p, q) => p.uUm - q.uUm);
  return out;
}

function trackOf(bond: BondRecord, pieces: readonly number[], edge: 0 | 1, rules: ClipRules): Run[] {
  const runs: Run[] = [];
  for (const index of pieces) {
    for (const { a, b } of groovedRuns(bond.pieces[index]!, edge)) {
      const length = b - a;
      runs.push({
        piece: index,
        index: runs.length,
        a,
        b,
        lo: a,
        hi: b,
        need: length < rules.length ? 0 : length < 2 * rules.length ? 1 : rules.perPiece,
        openSeam: a + rules.endMax,
        openAlone: a + rules.startEndMax,
        closeSeam: b - rules.endMax,
        closeAlone: b - rules.startEndMax,
      });
    }
  }
  if (runs.every((run, i) => i === 0 || run.a >= runs[i - 1]!.a)) return runs;
  runs.sort((p, q) => p.a - q.a);
  runs.forEach((run, i) => {
    run.index = i;
  });
  return runs;
}

/** Index of the first run that begins after u. */
function firstFrom(runs: readonly Run[], u: number): number {
  let lo = 0;
  let hi = runs.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (runs[mid]!.a > u) hi = mid;
    else lo = mid + 1;
  }
  return lo;
}
