import type { Side, Vertex } from "../../job/job.ts";
import type { JsonPath } from "../../read/problem.ts";
import type { SurveySide } from "./record.ts";
import type { SiteProblem } from "./ring.ts";

export interface Offset {
  side: number;
  along: number;
  offset: number;
}
export interface Bellied {
  ring: Vertex[];
  /** Job side of each edge. */
  sources: number[];
  problems: SiteProblem[];
}

/** Splits straight sides at their measured offsets: left of the side as the job runs is positive. Nothing is turned yet. */
export function bellySides(outline: readonly Vertex[], offsets: readonly Offset[]): Bellied {
  const problems: SiteProblem[] = [];
  const bySide = new Map<number, { offset: Offset; path: JsonPath }[]>();
  offsets.forEach((offset, i) => {
    if (offset.side >= outline.length) return;
    const list = bySide.get(offset.side) ?? [];
    list.push({ offset, path: ["site", "offsets", i] });
    bySide.set(offset.side, list);
  });
  const ring: Vertex[] = [];
  const sources: number[] = [];
  outline.forEach((vertex, side) => {
    ring.push(vertex);
    sources.push(side);
    const next = outline[(side + 1) % outline.length]!;
    const [dx, dy] = [next[0] - vertex[0], next[1] - vertex[1]];
    const length = Math.sqrt(dx * dx + dy * dy);
    let last = 0;
    for (const { offset, path } of [...(bySide.get(side) ?? [])].sort((a, b) => a.offset.along - b.offset.along)) {
      const { along } = offset;
      if (vertex[2] !== 0) problems.push({ path, code: "offsetOnArc", data: { side } });
      else if (along <= 0 || along >= length) {
        problems.push({ path: [...path, "along"], code: "offsetBeyond", data: { side, along, length: round(length) } });
      } else if (along === last)
        problems.push({ path: [...path, "along"], code: "offsetTwice", data: { side, along } });
      else {
        const [ex, ey] = [dx / length, dy / length];
        ring.push([
          round(vertex[0] + ex * along - ey * offset.offset),
          round(vertex[1] + ey * along + ex * offset.offset),
          0,
        ]);
        sources.push(side);
      }
      last = along;
    }
  });
  return { ring, sources, problems };
}

/** A ring the other way round: its edges keep their arcs, so bulges change sign and move to the other end. */
export function turnRound(ring: readonly Vertex[]): Vertex[] {
  const n = ring.length;
  return Array.from({ length: n }, (_, i) => {
    const [x, y] = ring[n - 1 - i]!;
    const bulge = ring[(2 * n - 2 - i) % n]![2];
    return [x, y, bulge === 0 ? 0 : -bulge];
  });
}

/** What belonged to edge i of a ring, for the ring turned round. */
export function turnEdges<T>(edges: readonly T[]): T[] {
  const n = edges.length;
  return Array.from({ length: n }, (_, i) => edges[(2 * n - 2 - i) % n]!);
}

/** Stands in where a job names fewer sides than corners, which is told of elsewhere. */
const WALL: Side = { kind: "wall", gap: null, sill: null, opens: null, leafClear: null };

/** Sides with the gap that holds at each: its own, else the trim's thickness on an open side, else gaps.edge. */
export function sidesOf(
  sides: readonly Side[],
  sources: readonly number[],
  edgeMm: number,
  trimMm: number,
): SurveySide[] {
  return sources.map((source) => {
    const side = sides[source] ?? WALL;
    return { ...side, gapMm: side.gap ?? (side.kind === "open" ? trimMm : edgeMm), source };
  });
}

function round(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}
