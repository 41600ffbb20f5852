/**
 * Rule 6, the bound: no plan in this frame needs fewer boards than `boardsAtLeast`, and its duals prove it.
 * Scope "pieces": draw lines along a board; the chords of the parts on each line, a kerf with each, fill at most
 * board + kerf. Three sets of lines (`by`): all alike ("area"), the grooved edges ("edges"), the middle line ("middle").
 * On each measure a piece has a demand; a piece may count with the dual of any listed demand not above its own; an
 * integer knapsack shows that no filling of the longest board and a kerf has duals above `scale`.
 * Scope "joints" (free bond): `duals` lists what spans need at least and how many spans; `scale` is the most one board
 * gives. Both are worked out anew here.
 */
import { areaOf, type Paths } from "../polygons.ts";
import { blame, type JudgedPiece, mm, type Scene, um } from "../scene.ts";
import type { JudgedJoint } from "./joints.ts";

/** Steps the knapsack may take. */
const MOST_NODES = 4_000_000;

export function judgeBound(scene: Scene, joints: JudgedJoint[]): void {
  const { figures } = scene.plan;
  const { bound } = figures;
  if (
    !Number.isInteger(figures.boardsAtLeast) ||
    figures.boardsAtLeast < 0 ||
    figures.boardsAtLeast > scene.plan.boards.length
  )
    blame(scene, "boundTooHigh", null, figures.boardsAtLeast, scene.plan.boards.length, {});
  if (
    !(bound.scale > 0) ||
    bound.duals.some(([length, dual]) => !(length > 0) || !(dual >= 0) || !Number.isInteger(dual))
  )
    blame(scene, "boundCheats", null, bound.scale, null, {});
  else if ((scene.job.bond.kind === "free") !== (bound.scope === "joints"))
    blame(scene, "boundCheats", null, bound.scope, null, {});
  else if (bound.scope === "pieces") byPieces(scene);
  else byJoints(scene, joints);
}

function byPieces(scene: Scene): void {
  const { boardsAtLeast, bound } = scene.plan.figures;
  const kerf = um(scene.job.cut.kerf);
  const longest = um(Math.max(...scene.job.board.lengths.map((l) => l.length)));
  const duals = bound.duals.map(([length, dual]): [number, number] => [um(length), dual]).sort((a, b) => a[0] - b[0]);
  if (fillsAbove(duals, longest + kerf, bound.scale)) {
    blame(scene, "boundCheats", null, bound.scale, null, {});
    return;
  }
  const best = duals.slice();
  for (let i = 1; i < best.length; i++) best[i] = [best[i]![0], Math.max(best[i]![1], best[i - 1]![1])];
  const measures: Measure[] = bound.by ? [bound.by] : ["area", "edges", "middle"];
  let proved = 0;
  for (const by of measures) {
    let sum = 0;
    for (const piece of scene.pieces) {
      const demand = demandOf(scene, piece, by, kerf) + 1;
      let lo = 0;
      let hi = best.length;
      while (lo < hi) {
        const half = (lo + hi) >> 1;
        if (best[half]![0] <= demand) lo = half + 1;
        else hi = half;
      }
      if (lo > 0) sum += best[lo - 1]![1];
    }
    proved = Math.max(proved, Math.ceil(sum / bound.scale - 1e-12));
  }
  if (boardsAtLeast > proved) blame(scene, "boundTooHigh", null, boardsAtLeast, proved, {});
}

type Measure = "area" | "edges" | "middle";

/** Length of board the piece takes on the lines of a measure, um. */
function demandOf(scene: Scene, piece: JudgedPiece, by: Measure, kerf: number): number {
  const width = um(scene.job.board.width);
  const full = Math.abs(piece.v1 - piece.v0 - width) <= 1;
  if (by === "area") return areaOf(piece.paths) / width + (full ? kerf : 0);
  const { edges } = piece.source;
  if (by === "edges") {
    const grooved = scene.job.board.grooves === "both" ? 2 : 1;
    let sum = 0;
    for (const edge of [0, 1] as const) {
      if (edges[edge] !== "groove") continue;
      const length = piece.runs[edge].reduce((total, run) => total + run.to - run.from, 0);
      if (length > 0) sum += length + kerf;
    }
    return sum / grooved;
  }
  const { row } = piece;
  if (!row || !(full || edges[0] === "groove" || edges[1] === "groove")) return 0;
  const chord = chordAt(piece.paths, (row.v0 + row.v1) / 2);
  return chord > 0 ? chord + kerf : 0;
}

function chordAt(paths: Paths, v: number): number {
  const cuts: number[] = [];
  for (const path of paths)
    for (let i = 0, j = path.length - 1; i < path.length; j = i++) {
      const a = path[j]!;
      const b = path[i]!;
      if (a.y > v !== b.y > v) cuts.push(a.x + ((b.x - a.x) * (v - a.y)) / (b.y - a.y));
    }
  cuts.sort((p, q) => p - q);
  let sum = 0;
  for (let i = 0; i + 1 < cuts.length; i += 2) sum += cuts[i + 1]! - cuts[i]!;
  return sum;
}

/**
 * Whether some filling (any number of each length) of `room` has duals above `scale`. Depth first, best value a length
 * first; a branch ends where even its best value a length cannot bring it above. True as well where the steps run out:
 * what is not proved does not count.
 */
export function fillsAbove(
  items: readonly (readonly [length: number, dual: number])[],
  room: number,
  scale: number,
): boolean {
  const useful = items.filter(([length, dual]) => dual > 0 && length <= room);
  // A length another one beats in both is never needed.
  const kept = useful.filter(
    ([l, d], i) => !useful.some(([m, e], j) => j !== i && m <= l && e >= d && (m < l || e > d || j < i)),
  );
  kept.sort((a, b) => b[1] * a[0] - a[1] * b[0] || a[0] - b[0]);
  let nodes = 0;
  const visit = (from: number, left: number, value: number): boolean => {
    if (value > scale) return true;
    if (++nodes > MOST_NODES) return true;
    for (let i = from; i < kept.length; i++) {
      const [length, dual] = kept[i]!;
      if (length > left) continue;
      if (Math.floor(value + (dual * left) / length + 1e-9) <= scale) return false;
      if (visit(i, left - length, value + dual)) return true;
    }
    return false;
  };
  return visit(0, room, 0);
}

function byJoints(scene: Scene, joints: JudgedJoint[]): void {
  const { boardsAtLeast, bound } = scene.plan.figures;
  const { job } = scene;
  const kerf = um(job.cut.kerf);
  const end = um(job.gaps.end);
  const width = um(job.board.width);
  const longest = um(Math.max(...job.board.lengths.map((l) => l.length)));
  const shortest = um(job.bond.minPiece);
  const most = longest + kerf + Math.floor((longest + kerf) / (shortest + kerf)) * Math.max(0, end - kerf);
  if (um(bound.scale) < most - 1) {
    blame(scene, "boundCheats", null, bound.scale, mm(most), {});
    return;
  }
  let needed = 0;
  for (const pieces of spansOf(scene, joints))
    needed += spanNeed(scene, pieces, bound.by ?? "area", { kerf, end, width, longest, shortest }) + 3;
  const claimed = bound.duals.reduce((sum, [length, count]) => sum + length * count, 0);
  if (um(claimed) > needed + 10) blame(scene, "boundCheats", null, claimed, mm(needed), {});
  if (boardsAtLeast > Math.ceil(claimed / bound.scale - 1e-9))
    blame(scene, "boundTooHigh", null, boardsAtLeast, Math.ceil(claimed / bound.scale), {});
}

/**
 * What a span needs by a measure whatever its joints, um: its own measure with the gaps, and for the pieces every line of
 * the measure crosses an end gap each in place of the kerf; else less the gaps of as many pieces as there may be.
 */
function spanNeed(
  scene: Scene,
  pieces: JudgedPiece[],
  by: Measure,
  {
    kerf,
    end,
    width,
    longest,
    shortest,
  }: { kerf: number; end: number; width: number; longest: number; shortest: number },
): number {
  const n = pieces.length;
  const first = pieces[0]!;
  const length = Math.max(...pieces.map((p) => p.u1)) - Math.min(...pieces.map((p) => p.u0));
  const single = n === 1 && length <= longest;
  const least = Math.ceil((length + end) / (longest + end));
  const counted = single ? kerf : end >= kerf ? end : least * kerf - (least - 1) * end;
  const most = single ? 1 : Math.max(1, Math.floor((length + end) / (shortest + end)));
  const full = pieces.every((p) => Math.abs(p.v1 - p.v0 - width) <= 1);
  const grooved = first.source.edges.filter((edge) => edge === "groove").length;
  const box = pieces.every((p) => p.plain && Math.abs(p.v0 - first.v0) <= 1 && Math.abs(p.v1 - first.v1) <= 1);
  const measured = pieces.reduce((sum, p) => sum + areaOf(p.paths), 0) / width;
  if (box && by !== "area") {
    if (by === "edges") return (grooved / (scene.job.board.grooves === "both" ? 2 : 1)) * (length + counted);
    const middle = first.row ? (first.row.v0 + first.row.v1) / 2 : first.v0;
    return first.v0 < middle && first.v1 > middle && (full || grooved > 0) ? length + counted : 0;
  }
  if (box && !full) return Math.max(0, (length * (first.v1 - first.v0)) / width - (most - 1) * end);
  if (by === "area") return full ? measured + (n - 1) * end + counted : Math.max(0, measured - (most - 1) * end);
  if (!full || !first.row) return 0;
  if (by === "edges") return grooved === 2 ? Math.max(0, measured - (most - n) * end) : 0;
  const middle = (first.row.v0 + first.row.v1) / 2;
  return pieces.reduce((sum, p) => sum + chordAt(p.paths, middle), 0) + (n - 1) * end + counted;
}

/** Pieces that joints hang together: one span of a row each. */
function spansOf(scene: Scene, joints: JudgedJoint[]): JudgedPiece[][] {
  const head = scene.pieces.map((_, i) => i);
  const find = (i: number): number => {
    let at = i;
    while (head[at] !== at) {
      head[at] = head[head[at]!]!;
      at = head[at]!;
    }
    return at;
  };
  for (const joint of joints) head[find(joint.right.index)] = find(joint.left.index);
  const out = new Map<number, JudgedPiece[]>();
  for (const piece of scene.pieces) {
    const key = find(piece.index);
    const list = out.get(key);
    if (list) list.push(piece);
    else out.set(key, [piece]);
  }
  return [...out.values()];
}
