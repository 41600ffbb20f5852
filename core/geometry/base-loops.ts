import { Clipper, ClipType, FillRule } from "clipper2-ts";
import { flattenEdge } from "./arc.ts";

type Ring = readonly (readonly [number, number, number])[];
/** What the mesh needs of a site: the outline with one side a vertex, and the rings cut out of it; counter-clockwise, mm. */
export interface MeshSite {
  outline: Ring;
  cutouts: readonly { ring: Ring }[];
}
/** A closed loop of the base's edge; label i belongs to the stretch from point i to i + 1: side, or -2 - cut-out. */
export interface BoundaryLoop {
  xy: [number, number][];
  label: number[];
}

/**
 * The base's edge as loops that do not cross: the outline less the cut-outs. Cut-outs that touch or cross the outline
 * or one another are united first, on whole micrometres.
 */
export function loopsOf(site: MeshSite): BoundaryLoop[] {
  const outline = flatten(site.outline, (i) => i);
  if (site.cutouts.length === 0) return [outline];
  const holes = site.cutouts.map((c, k) => flatten(c.ring, () => -2 - k));
  const toPath = (loop: BoundaryLoop) =>
    loop.xy.map(([x, y]) => ({ x: Math.round(x * 1000), y: Math.round(y * 1000) }));
  const paths = Clipper.booleanOp(ClipType.Difference, [toPath(outline)], holes.map(toPath), FillRule.NonZero);
  const named = [outline, ...holes];
  return paths.map((path) => {
    const xy = path.map((p): [number, number] => [p.x / 1000, p.y / 1000]);
    return { xy, label: xy.map((p, i) => labelOf(named, p, xy[(i + 1) % xy.length]!)) };
  });
}

function flatten(ring: Ring, labelOfEdge: (i: number) => number): BoundaryLoop {
  const loop: BoundaryLoop = { xy: [], label: [] };
  for (let i = 0; i < ring.length; i++) {
    const [x0, y0, bulge] = ring[i]!;
    const [x1, y1] = ring[(i + 1) % ring.length]!;
    const out: [number, number][] = [];
    flattenEdge(x0, y0, x1, y1, bulge, out);
    out.pop();
    for (const p of [[x0, y0] as [number, number], ...out]) {
      loop.xy.push(p);
      loop.label.push(labelOfEdge(i));
    }
  }
  return loop;
}

/** The named stretch on which the middle of a clipped stretch lies. */
function labelOf(named: BoundaryLoop[], p: [number, number], q: [number, number]): number {
  const x = (p[0] + q[0]) / 2;
  const y = (p[1] + q[1]) / 2;
  let best = Number.POSITIVE_INFINITY;
  let label = -1;
  for (const loop of named) {
    for (let i = 0; i < loop.xy.length; i++) {
      const [x0, y0] = loop.xy[i]!;
      const [x1, y1] = loop.xy[(i + 1) % loop.xy.length]!;
      const dx = x1 - x0;
      const dy = y1 - y0;
      const length2 = dx * dx + dy * dy;
      const f = length2 > 0 ? Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / length2)) : 0;
      const ex = x0 + f * dx - x;
      const ey = y0 + f * dy - y;
      const d = ex * ex + ey * ey;
      if (d < best) {
        best = d;
        label = loop.label[i]!;
      }
    }
  }
  return label;
}

/** Inside an odd number of loops. */
export function insideLoops(loops: readonly BoundaryLoop[], x: number, y: number): boolean {
  let inside = false;
  for (const { xy } of loops) {
    for (let i = 0, j = xy.length - 1; i < xy.length; j = i++) {
      const [xi, yi] = xy[i]!;
      const [xj, yj] = xy[j]!;
      if (yi > y !== yj > y && x < xi + ((y - yi) / (yj - yi)) * (xj - xi)) inside = !inside;
    }
  }
  return inside;
}

/** Within `slackMm` of a loop. */
export function onLoops(loops: readonly BoundaryLoop[], x: number, y: number, slackMm: number): boolean {
  for (const { xy } of loops) {
    for (let i = 0, j = xy.length - 1; i < xy.length; j = i++) {
      const [x0, y0] = xy[j]!;
      const [x1, y1] = xy[i]!;
      const dx = x1 - x0;
      const dy = y1 - y0;
      const length2 = dx * dx + dy * dy;
      const f = length2 > 0 ? Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / length2)) : 0;
      const ex = x0 + f * dx - x;
      const ey = y0 + f * dy - y;
      if (ex * ex + ey * ey <= slackMm * slackMm) return true;
    }
  }
  return false;
}
