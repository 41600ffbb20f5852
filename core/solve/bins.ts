/** The words of cutting stock: what is bought, what is cut from it, and how far a search may go. */

/** A length that can be bought: cost in any unit, supply null where as many as wanted. */
export interface Stock {
  length: number;
  cost: number;
  supply: number | null;
}
export interface Item {
  length: number;
  count: number;
}
/** `times` lengths of one stock, each cut into the same items: [index into items, how many]. */
export interface Bin {
  stock: number;
  counts: [item: number, n: number][];
  times: number;
}
export interface Packing {
  bins: Bin[];
  cost: number;
  /** Lengths used beyond the supply. */
  missing: number;
}
export interface PackingLimits {
  /** Most different lengths for which the linear programme is tried. */
  lpItems: number;
  /** Most columns generated. */
  columns: number;
  /** Most nodes of one knapsack. */
  nodes: number;
  /** Most nodes of all knapsacks together, for the programme and for the rounds each. */
  allNodes: number;
  /** Most steps of one exhaustive search over few items; 0 for none. */
  exact: number;
  /** Rounds of sequential value correction, and most patterns made in all of them. */
  rounds: number;
}
/** What is to be packed, kerf already added to caps and sizes. */
export interface Room {
  caps: number[];
  costs: number[];
  /** Infinity where as many as wanted. */
  supply: number[];
  sizes: number[];
  counts: number[];
}

/** Knapsack nodes that may still be visited: shared by all that fills one packing. */
export interface Budget {
  left: number;
}
