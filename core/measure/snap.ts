/** Snapping of a dragged point: whole centimetres, and square or in line with its neighbours. All mm. */
type Pt = readonly [x: number, y: number];
export interface Snapped {
  at: Pt;
  /** What held it on each axis: a neighbour's line, or the whole centimetre. */
  held: readonly ["line" | "whole", "line" | "whole"];
}

/** Moves a point onto the lines of others where it is within `reachMm` of them, else to whole centimetres. */
export function snapPoint(at: Pt, others: readonly Pt[], reachMm: number): Snapped {
  const [x, byX] = snapped(
    at[0],
    others.map((other) => other[0]),
    reachMm,
  );
  const [y, byY] = snapped(
    at[1],
    others.map((other) => other[1]),
    reachMm,
  );
  return { at: [x, y], held: [byX, byY] };
}

function snapped(value: number, lines: readonly number[], reach: number): [number, "line" | "whole"] {
  let best: number | null = null;
  for (const line of lines)
    if (Math.abs(line - value) <= reach && (best === null || Math.abs(line - value) < Math.abs(best - value)))
      best = line;
  return best === null ? [Math.round(value / 10) * 10 + 0, "whole"] : [best, "line"];
}
