/**
 * The one drawing model. Screen, paper and DXF draw the same items.
 * A sheet is paper: millimetres from its lower left corner, y upward. A view on it shows site geometry
 * (mm, y upward) at a scale; line widths, text heights and symbol sizes are always paper millimetres.
 * Short ways to make items: ink.ts (line, box, text, paragraph, mark), table.ts, text.ts (measure, wrap, shorten).
 */
export type Pt = readonly [x: number, y: number];
/** ISO 128: thick 0.5, medium 0.35, thin 0.18 mm. */
export type Ink = "thick" | "medium" | "thin";
export type Dash = "solid" | "dash" | "chain" | "dot";
/** ink: near-black; accent: chalk blue, what is set out; grey: background. Meaning never by tone alone. */
export type Tone = "ink" | "accent" | "grey";
export interface Stroke {
  ink: Ink;
  dash: Dash;
  tone: Tone;
}
/** A flat colour (#rrggbb), or a hatch at an angle with a paper spacing. */
export type Fill = { colour: string } | { hatchDeg: number; spacingMm: number; tone: Tone };
/** Plain names, also the DXF layers. */
export type Layer =
  | "outline"
  | "walls"
  | "field"
  | "cutouts"
  | "no-drill"
  | "base-joints"
  | "slab"
  | "boards"
  | "grain"
  | "ripped"
  | "cut-ends"
  | "clips"
  | "screws"
  | "trims"
  | "datum"
  | "dimensions"
  | "levels"
  | "deviation"
  | "contours"
  | "falls"
  | "puddles"
  | "straightedge"
  | "stakes"
  | "findings"
  | "text"
  | "frame";
export type Item =
  | {
      kind: "path";
      layer: Layer;
      points: readonly Pt[];
      closed: boolean;
      /** Bulge of each edge, DXF convention; left out where all are straight. */
      bulges?: readonly number[];
      stroke: Stroke | null;
      fill: Fill | null;
    }
  /** Rings filled even-odd: a region with holes. */
  | { kind: "region"; layer: Layer; rings: readonly (readonly Pt[])[]; stroke: Stroke | null; fill: Fill | null }
  | {
      kind: "text";
      layer: Layer;
      at: Pt;
      text: string;
      /** Height of the capitals, paper mm. */
      heightMm: number;
      align: "left" | "centre" | "right";
      /** Where `at` is on the text's height. */
      stand: "base" | "middle" | "top";
      turnDeg: number;
      bold: boolean;
      tone: Tone;
      /** Painted on a white ground, so that no line crosses the figure. */
      ground?: boolean;
    }
  /** A small symbol of our own drawing, sized on paper. */
  | {
      kind: "mark";
      layer: Layer;
      at: Pt;
      symbol: MarkSymbol;
      sizeMm: number;
      turnDeg: number;
      tone: Tone;
      number?: string;
    };
export type MarkSymbol =
  | "stop"
  | "warn"
  | "note"
  | "clip-start"
  | "clip-seam"
  | "clip-last"
  | "clip-end"
  | "screw"
  | "level"
  | "arrow"
  | "datum"
  | "outlet";

export interface View {
  /** Paper rectangle the view is clipped to. */
  x: number;
  y: number;
  width: number;
  height: number;
  /** 1 : scale. */
  scale: number;
  /** Site point shown at the rectangle's lower left corner, and turn of the drawing (counter-clockwise, degrees). */
  at: Pt;
  turnDeg: number;
  items: Item[];
}
export interface Sheet {
  /** File-safe name, e.g. "setout-1". */
  name: string;
  title: string;
  widthMm: number;
  heightMm: number;
  views: View[];
  items: Item[];
}
/** One paper: written as one PDF, one SVG a sheet, and (drawings only) one DXF. */
export interface Paper {
  name: string;
  title: string;
  sheets: Sheet[];
  dxf: boolean;
  /** Said once below the drawing in a DXF, which has no title block: title, number, what it is not released for. */
  notes?: string[];
}
