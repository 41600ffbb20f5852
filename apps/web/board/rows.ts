import type { PlanRecord } from "../../../core/plan/record.ts";
import { type BoardStroke, endStrokes, grainStrokes } from "../../../papers/drawing/boards.ts";
import type { Bounds } from "./camera.ts";

/**
 * All boards and clips of a plan, prepared once for painting and picking: millimetres in the row frame, in typed arrays,
 * ordered by row and then along it, so that what is seen is found by two binary searches.
 */
export interface Rows {
  record: PlanRecord;
  cos: number;
  sin: number;
  x: number;
  y: number;
  widthMm: number;
  /** Four figures a piece: u0, v0, u1, v1. Pieces in the plan's order. */
  pieces: Float64Array;
  /** 1 where the piece is not the rectangle of its extents. */
  shaped: Uint8Array;
  /** Piece indices, row after row, by u0. `from[row]` to `from[row + 1]`. */
  order: Int32Array;
  from: Int32Array;
  /** Lowest and highest v of each row's pieces. */
  rowV: Float64Array;
  /** Longest piece: how far back a search has to begin. */
  longestMm: number;
  /** Unbroken runs of plain pieces of one row as one rectangle: what is painted from afar. */
  runs: Float64Array;
  clips: Spots;
  screws: Spots;
  /** Ends of the clips' lines: u0, v, u1, v of each seam. */
  seams: Float64Array;
  strokes(piece: number, scale: number): readonly BoardStroke[];
  grain(piece: number): readonly BoardStroke[];
}
/** Points by v, then u, with their index in the record. */
export interface Spots {
  u: Float64Array;
  v: Float64Array;
  index: Int32Array;
}
/** A part of the row frame, mm. */
export interface UvBox {
  u0: number;
  v0: number;
  u1: number;
  v1: number;
}

/** Cost: pieces log pieces + clips log clips, once a plan. */
export function rowsOf(record: PlanRecord): Rows {
  const { bond, setout, fixing } = record;
  const { frame } = setout;
  const count = bond.pieces.length;
  const pieces = new Float64Array(count * 4);
  const shaped = new Uint8Array(count);
  const rowCount = setout.rows.length;
  const byRow: number[][] = Array.from({ length: rowCount }, () => []);
  let longestMm = 0;
  bond.pieces.forEach((piece, i) => {
    pieces.set([piece.u0Um / 1000, piece.v0Um / 1000, piece.u1Um / 1000, piece.v1Um / 1000], i * 4);
    shaped[i] = piece.plain ? 0 : 1;
    byRow[piece.row]!.push(i);
    longestMm = Math.max(longestMm, piece.lengthUm / 1000);
  });
  const order = new Int32Array(count);
  const from = new Int32Array(rowCount + 1);
  const rowV = new Float64Array(rowCount * 2);
  const runs: number[] = [];
  const joinMm = record.job.gaps.end + 2;
  let at = 0;
  byRow.forEach((list, row) => {
    list.sort((a, b) => pieces[a * 4]! - pieces[b * 4]!);
    from[row] = at;
    rowV.set([Infinity, -Infinity], row * 2);
    let run = -1;
    for (const i of list) {
      order[at++] = i;
      const [u0, v0, u1, v1] = pieces.subarray(i * 4, i * 4 + 4) as unknown as [number, number, number, number];
      rowV[row * 2] = Math.min(rowV[row * 2]!, v0);
      rowV[row * 2 + 1] = Math.max(rowV[row * 2 + 1]!, v1);
      if (shaped[i]) run = -1;
      else if (run >= 0 && u0 - runs[run + 2]! <= joinMm && runs[run + 1] === v0 && runs[run + 3] === v1)
        runs[run + 2] = u1;
      else run = runs.push(u0, v0, u1, v1) - 4;
    }
  });
  from[rowCount] = at;
  const ends = new Map<number, readonly BoardStroke[]>();
  const grains = new Map<number, readonly BoardStroke[]>();
  let endScale = 0;
  return {
    record,
    cos: frame.cos,
    sin: frame.sin,
    x: frame.originXMm,
    y: frame.originYMm,
    widthMm: setout.boardWidthUm / 1000,
    pieces,
    shaped,
    order,
    from,
    rowV,
    longestMm,
    runs: Float64Array.from(runs),
    clips: spotsOf(fixing.clips),
    screws: spotsOf(fixing.screws),
    seams: seamsOf(record),
    strokes(piece, scale) {
      if (scale !== endScale) ends.clear();
      endScale = scale;
      return known(ends, piece, () => endStrokes(record, piece, scale));
    },
    grain: (piece) => known(grains, piece, () => grainStrokes(record, piece)),
  };
}

function known<T>(map: Map<number, T>, key: number, make: () => T): T {
  let value = map.get(key);
  if (value === undefined) {
    value = make();
    map.set(key, value);
  }
  return value;
}

function spotsOf(spots: readonly { uUm: number; vUm: number }[]): Spots {
  const index = Int32Array.from(spots, (_, i) => i).sort(
    (a, b) => spots[a]!.vUm - spots[b]!.vUm || spots[a]!.uUm - spots[b]!.uUm,
  );
  return {
    u: Float64Array.from(index, (i) => spots[i]!.uUm / 1000),
    v: Float64Array.from(index, (i) => spots[i]!.vUm / 1000),
    index,
  };
}

function seamsOf(record: PlanRecord): Float64Array {
  const seams = new Map<number, [number, number, number]>();
  for (const { kind, uUm, vUm } of record.fixing.clips) {
    if (kind === "end") continue;
    const known = seams.get(vUm);
    if (!known) seams.set(vUm, [uUm, vUm, uUm]);
    else if (uUm < known[0]) known[0] = uUm;
    else if (uUm > known[2]) known[2] = uUm;
  }
  return Float64Array.from([...seams.values()].flatMap(([u0, v, u1]) => [u0 / 1000, v / 1000, u1 / 1000, v / 1000]));
}

/** What of the row frame lies in a part of the site: the box round its four corners. */
export function uvBox(rows: Rows, { x0, y0, x1, y1 }: Bounds): UvBox {
  const box = { u0: Infinity, v0: Infinity, u1: -Infinity, v1: -Infinity };
  for (const [x, y] of [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ] as const) {
    const [u, v] = toUv(rows, x, y);
    box.u0 = Math.min(box.u0, u);
    box.u1 = Math.max(box.u1, u);
    box.v0 = Math.min(box.v0, v);
    box.v1 = Math.max(box.v1, v);
  }
  return box;
}

export function toUv({ x, y, cos, sin }: Rows, px: number, py: number): [u: number, v: number] {
  return [(px - x) * cos + (py - y) * sin, (py - y) * cos - (px - x) * sin];
}
export function fromUv({ x, y, cos, sin }: Rows, u: number, v: number): [x: number, y: number] {
  return [x + u * cos - v * sin, y + u * sin + v * cos];
}

/** Calls with every piece that may be seen in a box. Cost: log rows + rows seen * log + pieces seen. */
export function piecesIn(rows: Rows, box: UvBox, each: (piece: number) => void): void {
  const { from, rowV, order, pieces, longestMm } = rows;
  const count = from.length - 1;
  let row = firstAbove(count, (i) => rowV[i * 2 + 1]! >= box.v0);
  for (; row < count; row++) {
    if (rowV[row * 2]! > box.v1 && rowV[row * 2]! !== Infinity) break;
    const start = from[row]!;
    const end = from[row + 1]!;
    let k = start + firstAbove(end - start, (i) => pieces[order[start + i]! * 4]! >= box.u0 - longestMm);
    for (; k < end; k++) {
      const piece = order[k]!;
      if (pieces[piece * 4]! > box.u1) break;
      if (pieces[piece * 4 + 2]! >= box.u0) each(piece);
    }
  }
}

/** Calls with every spot in a box: its place in the arrays. */
export function spotsIn({ u, v }: Spots, box: UvBox, each: (at: number) => void): void {
  let k = firstAbove(v.length, (i) => v[i]! >= box.v0);
  while (k < v.length && v[k]! <= box.v1) {
    const line = v[k]!;
    const end = k + firstAbove(v.length - k, (i) => v[k + i]! > line);
    for (let i = k + firstAbove(end - k, (n) => u[k + n]! >= box.u0); i < end && u[i]! <= box.u1; i++) each(i);
    k = end;
  }
}

/** First of 0 .. count for which `holds`, where it holds for all after it; count where for none. */
function firstAbove(count: number, holds: (i: number) => boolean): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
