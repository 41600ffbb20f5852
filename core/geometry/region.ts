import { Clipper, ClipType, FillRule, type Path64, type PolyPath64, PolyTree64 } from "clipper2-ts";
import type { Region, Ring } from "./frame.ts";
import { ringArea, tidyRing } from "./ring.ts";

/** Parts smaller than this are rounding dust, um2 (0.1 mm2). */
const DUST_UM2 = 1e5;

/**
 * What is wound round at least once by `add` and not by `take`, as regions (outer counter-clockwise, holes clockwise).
 * Raw, self-crossing curves are welcome: loops that run the wrong way count as nothing, which is how an offset curve is
 * cleaned (fill rule "positive"). Whole micrometres in and out.
 */
export function regionsOf(add: readonly Ring[], take: readonly Ring[]): Region[] {
  const tree = new PolyTree64();
  Clipper.booleanOpWithPolyTree(ClipType.Difference, add.map(toPath), take.map(toPath), tree, FillRule.Positive);
  const out: Region[] = [];
  collect(tree, out);
  return out;
}

/** The parts of regions inside a counter-clockwise ring, by the general clipper. */
export function intersectRegions(regions: readonly Region[], clip: Ring): Region[] {
  const subject = regions.flatMap((r) => [r.outer, ...r.holes]).map(toPath);
  const tree = new PolyTree64();
  Clipper.booleanOpWithPolyTree(ClipType.Intersection, subject, [toPath(clip)], tree, FillRule.NonZero);
  const out: Region[] = [];
  collect(tree, out);
  return out;
}

/** Area of the overlap of two sets of rings, by the general clipper: the second opinion in tests. */
export function overlapArea(a: readonly Ring[], b: readonly Ring[]): number {
  return Clipper.areaPaths(Clipper.booleanOp(ClipType.Intersection, a.map(toPath), b.map(toPath), FillRule.NonZero));
}

function collect(node: PolyPath64, out: Region[]): void {
  for (let i = 0; i < node.count; i++) {
    const outerNode = node.child(i);
    const outer = ringOf(outerNode);
    const holes: Ring[] = [];
    for (let k = 0; k < outerNode.count; k++) {
      const hole = ringOf(outerNode.child(k));
      if (ringArea(hole) < -DUST_UM2) holes.push(hole);
      collect(outerNode.child(k), out);
    }
    if (ringArea(outer) > DUST_UM2) out.push({ outer, holes });
  }
}

function ringOf(node: PolyPath64): Ring {
  return tidyRing((node.poly ?? []).map((p) => [p.x + 0, p.y + 0] as const));
}

function toPath(ring: Ring): Path64 {
  return ring.map(([x, y]) => ({ x, y }));
}
