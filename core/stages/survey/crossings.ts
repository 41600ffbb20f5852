import { orient2d } from "robust-predicates";

export interface Hit {
  /** Edge i runs from point i to i + 1. a < b. */
  a: number;
  b: number;
  how: "crosses" | "touches";
  xUm: number;
  yUm: number;
}
interface Points {
  xsUm: Float64Array;
  ysUm: Float64Array;
}

/**
 * Pairs of edges of one closed line that meet though they are not neighbours: at most `most`, in order of edge.
 * Edges are entered in a grid of about as many cells as edges, each only in the cells its line passes; pairs are tested
 * within a cell. Drawn shapes: O(n). A comb of n long teeth: O(n sqrt n) cells, still well under a second at 10,000.
 */
export function crossingsOf(ring: Points, most: number): Hit[] {
  const n = ring.xsUm.length;
  if (n < 4) return [];
  const grid = gridOf(ring);
  const found = new Map<number, Hit>();
  for (let cell = 0; cell + 1 < grid.starts.length; cell++) {
    const end = grid.starts[cell + 1]!;
    for (let p = grid.starts[cell]!; p < end; p++) {
      for (let q = p + 1; q < end; q++) {
        const [i, j] = [grid.edges[p]!, grid.edges[q]!];
        const [a, b] = i < j ? [i, j] : [j, i];
        if (b - a <= 1 || (a === 0 && b === n - 1)) continue;
        const how = meet(ring, a, b);
        if (how) found.set(a * n + b, { a, b, how, ...pointOf(ring, a, b) });
      }
    }
    // a line drawn twice over itself would fill memory; ten times what is listed is enough to choose from
    if (found.size > most * 10) break;
  }
  return [...found.values()].sort((s, t) => s.a - t.a || s.b - t.b).slice(0, most);
}

interface Grid {
  /** Entries of cell c: edges[starts[c]] to edges[starts[c + 1] - 1]. */
  starts: Int32Array;
  edges: Int32Array;
}

function gridOf({ xsUm: xs, ysUm: ys }: Points): Grid {
  const n = xs.length;
  let [x0, x1, y0, y1] = [xs[0]!, xs[0]!, ys[0]!, ys[0]!];
  for (let i = 1; i < n; i++) {
    x0 = Math.min(x0, xs[i]!);
    x1 = Math.max(x1, xs[i]!);
    y0 = Math.min(y0, ys[i]!);
    y1 = Math.max(y1, ys[i]!);
  }
  const size = Math.max(
    1,
    Math.sqrt((Math.max(1, x1 - x0) * Math.max(1, y1 - y0)) / n),
    (x1 - x0) / 4096,
    (y1 - y0) / 4096,
  );
  const nx = Math.floor((x1 - x0) / size) + 1;
  const ny = Math.floor((y1 - y0) / size) + 1;
  const starts = new Int32Array(nx * ny + 1);
  const each = (visit: (cell: number, edge: number) => void): void => {
    for (let i = 0; i < n; i++) {
      const j = (i + 1) % n;
      const [lo, hi] = ys[i]! <= ys[j]! ? [i, j] : [j, i];
      const row0 = Math.floor((ys[lo]! - y0) / size);
      const row1 = Math.floor((ys[hi]! - y0) / size);
      for (let row = row0; row <= row1; row++) {
        const [left, right] = within(xs[lo]!, ys[lo]!, xs[hi]!, ys[hi]!, y0 + row * size, y0 + (row + 1) * size);
        // a micrometre to spare: entering a cell too many costs nothing, one too few a crossing
        const col0 = Math.max(0, Math.floor((left - 1 - x0) / size));
        const col1 = Math.min(nx - 1, Math.floor((right + 1 - x0) / size));
        for (let col = col0; col <= col1; col++) visit(row * nx + col, i);
      }
    }
  };
  each((cell) => {
    starts[cell + 1] = starts[cell + 1]! + 1;
  });
  for (let c = 0; c < nx * ny; c++) starts[c + 1] = starts[c + 1]! + starts[c]!;
  const edges = new Int32Array(starts[nx * ny]!);
  const next = starts.slice(0, -1);
  each((cell, edge) => {
    edges[next[cell]!] = edge;
    next[cell] = next[cell]! + 1;
  });
  return { starts, edges };
}

/** Least and greatest x of the segment within a band of y. */
function within(ax: number, ay: number, bx: number, by: number, bandLow: number, bandHigh: number): [number, number] {
  if (by === ay) return ax < bx ? [ax, bx] : [bx, ax];
  const slope = (bx - ax) / (by - ay);
  const xLow = ay >= bandLow ? ax : ax + (bandLow - ay) * slope;
  const xHigh = by <= bandHigh ? bx : ax + (bandHigh - ay) * slope;
  return xLow < xHigh ? [xLow, xHigh] : [xHigh, xLow];
}

function meet({ xsUm: xs, ysUm: ys }: Points, a: number, b: number): Hit["how"] | null {
  const n = xs.length;
  const [a1, b1] = [(a + 1) % n, (b + 1) % n];
  const [px, py, qx, qy] = [xs[a]!, ys[a]!, xs[a1]!, ys[a1]!];
  const [rx, ry, sx, sy] = [xs[b]!, ys[b]!, xs[b1]!, ys[b1]!];
  if (Math.max(px, qx) < Math.min(rx, sx) || Math.max(rx, sx) < Math.min(px, qx)) return null;
  if (Math.max(py, qy) < Math.min(ry, sy) || Math.max(ry, sy) < Math.min(py, qy)) return null;
  const o1 = orient2d(px, py, qx, qy, rx, ry);
  const o2 = orient2d(px, py, qx, qy, sx, sy);
  if ((o1 > 0 && o2 > 0) || (o1 < 0 && o2 < 0)) return null;
  const o3 = orient2d(rx, ry, sx, sy, px, py);
  const o4 = orient2d(rx, ry, sx, sy, qx, qy);
  if ((o3 > 0 && o4 > 0) || (o3 < 0 && o4 < 0)) return null;
  // boxes overlap and neither lies to one side of the other's line: they meet; four non-zero signs make a true crossing
  return o1 !== 0 && o2 !== 0 && o3 !== 0 && o4 !== 0 ? "crosses" : "touches";
}

/** Where they meet, for the sentence only: never computed with. */
function pointOf({ xsUm: xs, ysUm: ys }: Points, a: number, b: number): { xUm: number; yUm: number } {
  const n = xs.length;
  const [a1, b1] = [(a + 1) % n, (b + 1) % n];
  const [dx, dy] = [xs[a1]! - xs[a]!, ys[a1]! - ys[a]!];
  const [ex, ey] = [xs[b1]! - xs[b]!, ys[b1]! - ys[b]!];
  const cross = dx * ey - dy * ex;
  if (cross === 0) return { xUm: xs[b]!, yUm: ys[b]! };
  const t = ((xs[b]! - xs[a]!) * ey - (ys[b]! - ys[a]!) * ex) / cross;
  return { xUm: Math.round(xs[a]! + t * dx), yUm: Math.round(ys[a]! + t * dy) };
}
