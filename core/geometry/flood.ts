/** A surface as heights at points and neighbours of each point (points neighbours[first[i]] ... before first[i + 1]). */
export interface FloodGraph {
  z: ArrayLike<number>;
  first: Int32Array;
  neighbours: Int32Array;
}

/**
 * The height to which water stands at each point before it runs off to an outlet: the least, over all ways to an
 * outlet, of the greatest height on the way. Priority-Flood (Barnes, Lehman & Mulla, 2014) with a heap, O(n log n).
 * On a triangulated surface with straight edges this is exact: what lies below a level is connected exactly as its
 * points and edges are. Points from which no outlet can be reached keep Infinity.
 */
export function floodLevels(graph: FloodGraph, outlets: Iterable<number>): Float64Array {
  const { z, first, neighbours } = graph;
  const level = new Float64Array(z.length).fill(Number.POSITIVE_INFINITY);
  const heap = new Heap(level);
  for (const i of outlets) {
    if (level[i] !== Number.POSITIVE_INFINITY) continue;
    level[i] = z[i]!;
    heap.push(i);
  }
  for (let i = heap.pop(); i >= 0; i = heap.pop()) {
    for (let k = first[i]!; k < first[i + 1]!; k++) {
      const j = neighbours[k]!;
      if (level[j] !== Number.POSITIVE_INFINITY) continue;
      level[j] = Math.max(level[i]!, z[j]!);
      heap.push(j);
    }
  }
  return level;
}

/** Neighbours of the cells of a grid, row by row: the four that share an edge, or all eight. */
export function gridGraph(z: ArrayLike<number>, columns: number, way: 4 | 8): FloodGraph {
  const rows = z.length / columns;
  const first = new Int32Array(z.length + 1);
  const neighbours: number[] = [];
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      for (let dr = -1; dr <= 1; dr++) {
        for (let dc = -1; dc <= 1; dc++) {
          if ((dr === 0 && dc === 0) || (way === 4 && dr !== 0 && dc !== 0)) continue;
          if (r + dr < 0 || r + dr >= rows || c + dc < 0 || c + dc >= columns) continue;
          neighbours.push((r + dr) * columns + c + dc);
        }
      }
      first[r * columns + c + 1] = neighbours.length;
    }
  }
  return { z, first, neighbours: Int32Array.from(neighbours) };
}

/** Least first by level, then by index, so that ties fall the same way everywhere. */
class Heap {
  private readonly items: number[] = [];
  private readonly key: Float64Array;
  constructor(key: Float64Array) {
    this.key = key;
  }

  push(i: number): void {
    let at = this.items.length;
    this.items.push(i);
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (!this.before(this.items[at]!, this.items[up]!)) break;
      this.swap(at, up);
      at = up;
    }
  }

  pop(): number {
    const top = this.items[0];
    if (top === undefined) return -1;
    const last = this.items.pop()!;
    if (this.items.length === 0) return top;
    this.items[0] = last;
    for (let at = 0; ; ) {
      const l = 2 * at + 1;
      let least = at;
      if (l < this.items.length && this.before(this.items[l]!, this.items[least]!)) least = l;
      if (l + 1 < this.items.length && this.before(this.items[l + 1]!, this.items[least]!)) least = l + 1;
      if (least === at) return top;
      this.swap(at, least);
      at = least;
    }
  }

  private before(i: number, j: number): boolean {
    const d = this.key[i]! - this.key[j]!;
    return d < 0 || (d === 0 && i < j);
  }

  private swap(a: number, b: number): void {
    [this.items[a], this.items[b]] = [this.items[b]!, this.items[a]!];
  }
}
