/**
 * A job as every stage sees it: what the fitter knows, with every default filled in.
 * Lengths mm, angles degrees counter-clockwise from +x, slopes %, money in minor units of `currency`,
 * masses kg, temperatures C. Meaning of each field: docs in schema.ts, which is also the published JSON Schema.
 */
export type Xy = readonly [x: number, y: number];
/** x, y, bulge = tan(a quarter of the arc's angle) of the edge that starts here; 0 is straight. */
export type Vertex = readonly [x: number, y: number, bulge: number];
export type SideKind = "wall" | "door" | "kerb" | "open" | "outlet" | "pool";

export interface Side {
  kind: SideKind;
  /** Null: gaps.edge, or on an open side the trim's thickness (0 without trim). */
  gap: number | null;
  /** Height of a door's sill above the base at the door, mm. */
  sill: number | null;
  opens: "in" | "out" | null;
  /** Clear height under the open door leaf above the base, mm. */
  leafClear: number | null;
}
export interface Cutout {
  name: string;
  ring: Vertex[];
  /** Null: gaps.edge. */
  gap: number | null;
  height: "tall" | "flush" | "removable";
}
export interface Area {
  name: string;
  ring: Vertex[];
}
export interface LooseArea {
  name: string;
  ring: Vertex[];
  kind: "tiles" | "paving" | "screed" | "other";
}
export interface Confirmation {
  of: "membrane" | "heating" | "tendons" | "services" | "load" | "fixing" | "firmness";
  by: string;
  on: string;
  says: string;
}
export interface BaseMaterial {
  name: string;
  kind: "shaped" | "pourable";
  /** Least and greatest thickness, mm; cost a litre in minor units; density kg a litre. */
  min: number;
  max: number;
  cost: number;
  density: number;
  /** Litres a bag, null where sold loose. */
  bag: number | null;
}
export type Unknowable = boolean | "unknown";
export interface BoardLength {
  length: number;
  price: number;
  pack: number;
  /** Pieces that can be had, the fitter's own and the merchant's; null: as many as wanted. */
  stock: number | null;
  /** Of them, pieces already in the fitter's own yard: used first, and not bought. Null or left out: none. */
  owned?: number | null;
}
export interface Job {
  title: string;
  currency: string;
  site: {
    /** Coordinates, or null where the outline is given by tape (`marks`). */
    outline: Vertex[] | null;
    marks: string[] | null;
    /** Wall offsets: distance of the real wall left (+) of the straight side from `from` to `to`, at `along` mm from `from`. */
    offsets: { side: number; along: number; offset: number }[];
    sides: Side[];
    cutouts: Cutout[];
    noDrill: Area[];
    keepClear: Area[];
    loose: LooseArea[];
    baseJoints: Xy[][];
    slab: Vertex[] | null;
  };
  survey: {
    levels: (readonly [x: number, y: number, z: number])[];
    straightedges: { from: Xy; to: Xy; gap: number }[];
    ties: (readonly [from: string, to: string, mm: number])[];
    sigma: { level: number; levelPer10m: number; tape: number };
  };
  base: {
    kind: "concrete" | "tiles" | "paving" | "asphalt" | "screed";
    firm: Unknowable;
    membrane: Unknowable;
    heating: Unknowable;
    tendons: Unknowable;
    suspended: boolean;
    /** Permitted added load, kg/m2; null where nobody has said. */
    loadMax: number | null;
    confirmed: Confirmation[];
    limits: {
      unevenness: number;
      straightedge: number;
      deviation: number;
      fallMin: number;
      fallMax: number;
      fallLocalMin: number;
    };
    preparation: { grindMax: number; grindCost: number; materials: BaseMaterial[] };
  };
  board: {
    name: string;
    lengths: BoardLength[];
    width: number;
    rise: number;
    grooves: "both" | "lower" | "upper" | "none";
    channels: "along" | "across" | "both" | "none";
    expansion: number;
    /** kg a metre of board. */
    mass: number;
    reversible: boolean;
    tolerance: number;
  };
  gaps: { side: number; sideRange: readonly [number, number]; end: number; edge: number };
  clips: {
    length: number;
    clearMax: number;
    measure: "clear" | "centre";
    endMax: number;
    startEndMax: number;
    perPiece: number;
    tolerance: number;
    slabEdge: number;
    jointEdge: number;
    wallReach: number;
    engage: number;
    fixing: { diameter: number; embed: number; holes: Xy[] };
  };
  bond: {
    /** Null: chosen, with the reason. */
    angle: number | null;
    kind: "half" | "third" | "free" | "stack";
    shift: number | null;
    firstRow: number | null;
    stagger: number;
    minPiece: number;
    minRip: number;
    /** A point of the site on the lower edge of some row's strip; null or left out: chosen. Goes before `firstRow`. */
    startAt?: Xy | null;
    /** Rows that keep their joints: u of the joints' middles in the row frame, mm. Left out: none. */
    locked?: { row: number; joints: number[] }[];
  };
  cut: { kerf: number; minOffcut: number; cutTo: number; holeEdge: number };
  trim: { length: number; price: number; leg: number; thickness: number; vent: boolean; screwSpacing: number } | null;
  spares: { boards: number; boardsAtLeast: number; boardsSlanting: number; clips: number; fixings: number };
  /** Unit prices by take-off item, minor units; an item not listed has no price and says so. */
  prices: Record<string, number>;
  /** Pieces or units a pack by take-off item, where it is sold in packs; left out: singly. Boards carry their own. */
  packs?: Record<string, number>;
  work: Record<string, unknown>;
  client: Record<string, unknown>;
}
