import type { MarkSymbol, Pt } from "./sheet.ts";

/** One stroke of a symbol: in the symbol's own square from -0.5 to 0.5, y up. ink: filled; paper: filled white; none: outline only. */
export interface MarkPart {
  points: readonly Pt[];
  closed: boolean;
  fill: "ink" | "paper" | "none";
}

/**
 * The symbols of every drawing, our own. The three findings differ in outline before colour: a full square with a bar
 * left out (stop), a diamond half full (warn), an open ring with a dot (note). Clips tell by their outline on which
 * side of the line they hold: a start clip points up, a last clip down, a seam clip both ways, an end clip is a box.
 */
export function markParts(symbol: MarkSymbol): readonly MarkPart[] {
  return PARTS[symbol];
}

function full(points: readonly Pt[]): MarkPart {
  return { points, closed: true, fill: "ink" };
}
function paper(points: readonly Pt[]): MarkPart {
  return { points, closed: true, fill: "paper" };
}
function open(points: readonly Pt[]): MarkPart {
  return { points, closed: false, fill: "none" };
}
/** Twelve-sided: round enough at 3 mm. Corners from the exact halves and square roots of the twelfth turn. */
function ring(radius: number): Pt[] {
  const a = 0.5;
  const b = Math.sqrt(3) / 2;
  const corners: Pt[] = [
    [1, 0],
    [b, a],
    [a, b],
    [0, 1],
    [-a, b],
    [-b, a],
    [-1, 0],
    [-b, -a],
    [-a, -b],
    [0, -1],
    [a, -b],
    [b, -a],
  ];
  return corners.map(([x, y]) => [x * radius, y * radius]);
}

const PARTS: Record<MarkSymbol, readonly MarkPart[]> = {
  stop: [
    full([
      [-0.5, -0.5],
      [0.5, -0.5],
      [0.5, 0.5],
      [-0.5, 0.5],
    ]),
    paper([
      [-0.34, -0.14],
      [0.34, -0.14],
      [0.34, 0.14],
      [-0.34, 0.14],
    ]),
  ],
  warn: [
    paper([
      [0, -0.5],
      [0.5, 0],
      [0, 0.5],
      [-0.5, 0],
    ]),
    full([
      [0, -0.5],
      [0, 0.5],
      [-0.5, 0],
    ]),
  ],
  note: [paper(ring(0.5)), full(ring(0.14))],
  "clip-start": [
    full([
      [-0.5, -0.2],
      [0.5, -0.2],
      [0, 0.5],
    ]),
    open([
      [-0.5, -0.4],
      [0.5, -0.4],
    ]),
  ],
  "clip-seam": [
    full([
      [0, -0.5],
      [0.32, 0],
      [0, 0.5],
      [-0.32, 0],
    ]),
  ],
  "clip-last": [
    paper([
      [-0.5, 0.2],
      [0, -0.5],
      [0.5, 0.2],
    ]),
    open([
      [-0.5, 0.4],
      [0.5, 0.4],
    ]),
  ],
  "clip-end": [
    paper([
      [-0.35, -0.35],
      [0.35, -0.35],
      [0.35, 0.35],
      [-0.35, 0.35],
    ]),
    full(ring(0.12)),
  ],
  screw: [
    paper(ring(0.4)),
    open([
      [-0.28, -0.28],
      [0.28, 0.28],
    ]),
    open([
      [-0.28, 0.28],
      [0.28, -0.28],
    ]),
  ],
  level: [
    open([
      [-0.5, 0],
      [0.5, 0],
    ]),
    open([
      [0, -0.5],
      [0, 0.5],
    ]),
  ],
  arrow: [
    open([
      [-0.5, 0],
      [0.3, 0],
    ]),
    full([
      [0.5, 0],
      [0.25, 0.09],
      [0.25, -0.09],
    ]),
  ],
  datum: [
    full([
      [0, 0],
      [0.45, 0.5],
      [-0.45, 0.5],
    ]),
  ],
  outlet: [
    paper(ring(0.5)),
    full([
      [0, -0.38],
      [0.26, 0.1],
      [-0.26, 0.1],
    ]),
    open([
      [0, 0.1],
      [0, 0.38],
    ]),
  ],
};
