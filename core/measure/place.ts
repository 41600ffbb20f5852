/** Things placed by typed distances from two walls, as a tape gives them. All mm, in the outline's frame. */
import type { DraftVertex } from "../edits/draft.ts";

type Pt = readonly [x: number, y: number];
export interface Placing {
  /** Sides of the outline (index of the first corner), and the clear distance to the thing's near face. */
  fromSide: number;
  from: number;
  toSide: number;
  to: number;
  /** Size along the first side, and away from it. A round thing has one size. */
  along: number;
  deep: number;
  round: boolean;
}

/** tan of a quarter of a quarter turn: four such arcs are a circle. */
const QUARTER_BULGE = 0.41421356237309503;

/**
 * The ring of a rectangle (along the first side) or a circle at its clear distances from two sides' lines; null where the two
 * sides run alongside each other, so that they fix no place. `inward` is 1 for a counter-clockwise outline, else -1.
 */
export function placeRing(outline: readonly DraftVertex[], placing: Placing): DraftVertex[] | null {
  const first = lineOf(outline, placing.fromSide);
  const second = lineOf(outline, placing.toSide);
  if (!first || !second) return null;
  // along the first wall, away from the second
  const cross = first.way[0] * second.in[0] + first.way[1] * second.in[1];
  if (Math.abs(cross) < 0.05) return null;
  const sign = cross > 0 ? 1 : -1;
  const way: Pt = [first.way[0] * sign, first.way[1] * sign];
  const corner = crossing(first, placing.from, second, placing.to);
  const at = (u: number, v: number): DraftVertex => [
    tidy(corner[0] + way[0] * u + first.in[0] * v),
    tidy(corner[1] + way[1] * u + first.in[1] * v),
  ];
  if (!placing.round) return [at(0, 0), at(placing.along, 0), at(placing.along, placing.deep), at(0, placing.deep)];
  const d = placing.along;
  // a circle touches both walls' lines at the typed distances: its middle lies half its width further
  const middle = crossing(first, placing.from + d / 2, second, placing.to + d / 2);
  const swell = sign * outlineSign(outline) > 0 ? QUARTER_BULGE : -QUARTER_BULGE;
  const around = (u: number, v: number): DraftVertex => [
    tidy(middle[0] + (way[0] * u + first.in[0] * v) * (d / 2)),
    tidy(middle[1] + (way[1] * u + first.in[1] * v) * (d / 2)),
    swell,
  ];
  return [around(1, 0), around(0, 1), around(-1, 0), around(0, -1)];
}

/** The point at clear distances from two sides' lines; null where they run alongside each other. */
export function placePoint(
  outline: readonly DraftVertex[],
  from: { side: number; mm: number },
  to: { side: number; mm: number },
): Pt | null {
  const [first, second] = [lineOf(outline, from.side), lineOf(outline, to.side)];
  if (!first || !second) return null;
  if (Math.abs(first.way[0] * second.in[0] + first.way[1] * second.in[1]) < 0.05) return null;
  const [x, y] = crossing(first, from.mm, second, to.mm);
  return [tidy(x), tidy(y)];
}

/** Bulge of an arc from its chord and its rise over it; positive swells outward. Null where no arc has that rise. */
export function bulgeOf(outline: readonly DraftVertex[], chordMm: number, riseMm: number): number | null {
  if (chordMm <= 0 || Math.abs(riseMm) > chordMm / 2) return null;
  return ((2 * riseMm) / chordMm) * outlineSign(outline) + 0;
}

/** 1 where the outline runs counter-clockwise, -1 where clockwise. */
export function outlineSign(outline: readonly DraftVertex[]): 1 | -1 {
  let twice = 0;
  outline.forEach(([x, y], i) => {
    const [nx, ny] = outline[(i + 1) % outline.length]!;
    twice += x * ny - nx * y;
  });
  return twice < 0 ? -1 : 1;
}

interface Line {
  at: Pt;
  way: Pt;
  /** Unit vector into the site. */
  in: Pt;
}

function lineOf(outline: readonly DraftVertex[], side: number): Line | null {
  const [a, b] = [outline[side], outline[(side + 1) % outline.length]];
  if (!a || !b) return null;
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length === 0) return null;
  const sign = outlineSign(outline);
  const way: Pt = [dx / length, dy / length];
  return { at: [a[0], a[1]], way, in: [-way[1] * sign, way[0] * sign] };
}

/** Where the lines moved inward by these distances meet. */
function crossing(first: Line, by: number, second: Line, byToo: number): Pt {
  const [px, py] = [first.at[0] + first.in[0] * by, first.at[1] + first.in[1] * by];
  const [qx, qy] = [second.at[0] + second.in[0] * byToo, second.at[1] + second.in[1] * byToo];
  const across = first.way[0] * second.in[0] + first.way[1] * second.in[1];
  const along = ((qx - px) * second.in[0] + (qy - py) * second.in[1]) / across;
  return [px + first.way[0] * along, py + first.way[1] * along];
}

function tidy(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}
