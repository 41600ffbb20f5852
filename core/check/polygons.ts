/** The judge's polygon engine: Clipper on whole micrometres, wrapped so that the rules read plainly. */
import { Clipper, ClipType, EndType, FillRule, JoinType, type Path64, type Paths64, PolyTree64 } from "clipper2-ts";

export type Path = Path64;
export type Paths = Paths64;
/** One connected part: outer ring first, then its holes. */
export type Part = Paths;

export const meet = (a: Paths, b: Paths): Paths => Clipper.intersect(a, b, FillRule.NonZero);
export const minus = (a: Paths, b: Paths): Paths => (b.length === 0 ? a : Clipper.difference(a, b, FillRule.NonZero));
export const join = (a: Paths): Paths => Clipper.union(a, FillRule.NonZero);
/** Grown (or shrunk) with square corners kept; `by` in micrometres. */
export const grow = (a: Paths, by: number): Paths =>
  a.length === 0 ? a : Clipper.inflatePaths(a, by, JoinType.Miter, EndType.Polygon, 3);
export const areaOf = (a: Paths): number => Clipper.areaPaths(a);

export function box(u0: number, v0: number, u1: number, v1: number): Path {
  return [
    { x: u0, y: v0 },
    { x: u1, y: v0 },
    { x: u1, y: v1 },
    { x: u0, y: v1 },
  ];
}

/** The connected parts of a meet b, each with its holes. */
export function meetParts(a: Paths, b: Paths): Part[] {
  const tree = new PolyTree64();
  Clipper.booleanOpWithPolyTree(ClipType.Intersection, a, b, tree, FillRule.NonZero);
  const parts: Part[] = [];
  const visit = (node: PolyTree64): void => {
    for (let i = 0; i < node.count; i++) {
      const outer = node.child(i);
      const part: Part = [outer.poly ?? []];
      for (let j = 0; j < outer.count; j++) {
        const hole = outer.child(j);
        part.push(hole.poly ?? []);
        visit(hole as PolyTree64);
      }
      parts.push(part);
    }
  };
  visit(tree);
  return parts;
}

export interface Bounds {
  u0: number;
  v0: number;
  u1: number;
  v1: number;
}
export function boundsOf(paths: Paths): Bounds {
  const b = { u0: Infinity, v0: Infinity, u1: -Infinity, v1: -Infinity };
  for (const path of paths) {
    for (const p of path) {
      if (p.x < b.u0) b.u0 = p.x;
      if (p.x > b.u1) b.u1 = p.x;
      if (p.y < b.v0) b.v0 = p.y;
      if (p.y > b.v1) b.v1 = p.y;
    }
  }
  return b;
}

/** What is left of `paths` after everything thinner than 2 x `half` micrometres is taken off; small rests vanish. */
export function thickerThan(paths: Paths, half: number): Paths {
  return paths.length === 0 ? paths : grow(grow(paths, -half), half);
}

/** Crossing number of a point; on the edge counts as either. */
export function insidePaths(paths: Paths, x: number, y: number): boolean {
  let inside = false;
  for (const path of paths) {
    for (let i = 0, j = path.length - 1; i < path.length; j = i++) {
      const a = path[i]!;
      const b = path[j]!;
      if (a.y > y !== b.y > y && x < ((b.x - a.x) * (y - a.y)) / (b.y - a.y) + a.x) inside = !inside;
    }
  }
  return inside;
}

/** Distance from a point to a segment. */
export function toSegment(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const square = dx * dx + dy * dy;
  let t = square > 0 ? ((px - ax) * dx + (py - ay) * dy) / square : 0;
  t = Math.max(0, Math.min(1, t));
  const ex = px - ax - t * dx;
  const ey = py - ay - t * dy;
  return Math.sqrt(ex * ex + ey * ey);
}

/** Distance from a point to the edges of rings. */
export function toEdges(paths: Paths, x: number, y: number): number {
  let best = Infinity;
  for (const path of paths) {
    for (let i = 0, j = path.length - 1; i < path.length; j = i++) {
      const d = toSegment(x, y, path[j]!.x, path[j]!.y, path[i]!.x, path[i]!.y);
      if (d < best) best = d;
    }
  }
  return best;
}
