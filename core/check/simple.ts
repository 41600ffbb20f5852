/**
 * Whether rings are simple, found by a sweep along u: edges by their least u, each held against those still open.
 * O(n log n) for what boards look like. A file may bring a ring on which every edge lies beside every other; so steps
 * are counted, and what is not shown simple within them counts as not simple.
 */
import type { Path } from "./polygons.ts";

/** Pairs of edges one plan may cost: so many a vertex (a strip holds no more webs side by side), and so many in any case. */
const STEPS_A_VERTEX = 64;
const STEPS_ANYWAY = 1_000_000;

/** What is left to spend; one for a whole plan. */
export interface Steps {
  left: number;
}

export function stepsFor(vertices: number): Steps {
  return { left: STEPS_ANYWAY + STEPS_A_VERTEX * vertices };
}

interface Edge {
  i: number;
  ax: number;
  ay: number;
  bx: number;
  by: number;
  x0: number;
  x1: number;
}

/** No two edges of the ring cross and none has no length. */
export function isSimple(ring: Path, steps: Steps): boolean {
  const n = ring.length;
  if (n < 3) return false;
  const edges: Edge[] = [];
  for (let i = 0; i < n; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % n]!;
    if (a.x === b.x && a.y === b.y) return false;
    edges.push({ i, ax: a.x, ay: a.y, bx: b.x, by: b.y, x0: Math.min(a.x, b.x), x1: Math.max(a.x, b.x) });
  }
  edges.sort((a, b) => a.x0 - b.x0 || a.i - b.i);
  const open: Edge[] = [];
  for (const edge of edges) {
    steps.left -= open.length + 1;
    if (steps.left < 0) return false;
    let kept = 0;
    for (const other of open) {
      if (other.x1 < edge.x0) continue;
      open[kept++] = other;
      const apart = Math.abs(other.i - edge.i);
      if (apart > 1 && apart < n - 1 && cross(edge, other)) return false;
    }
    open.length = kept;
    open.push(edge);
  }
  return true;
}

function cross(e: Edge, f: Edge): boolean {
  if (Math.max(e.ay, e.by) < Math.min(f.ay, f.by) || Math.max(f.ay, f.by) < Math.min(e.ay, e.by)) return false;
  const s1 = side(e, f.ax, f.ay);
  const s2 = side(e, f.bx, f.by);
  if (!((s1 > 0 && s2 < 0) || (s1 < 0 && s2 > 0))) return false;
  const s3 = side(f, e.ax, e.ay);
  const s4 = side(f, e.bx, e.by);
  return (s3 > 0 && s4 < 0) || (s3 < 0 && s4 > 0);
}

function side(e: Edge, x: number, y: number): number {
  return (e.bx - e.ax) * (y - e.ay) - (e.by - e.ay) * (x - e.ax);
}
