/** Codes of this stage and the data their sentences need. Sentences: words/<language>/laying.ts. */
export interface LayingFindings {
  /** A piece cannot be moved in from the far side: something stands nearer than the clips need. */
  captive: {
    row: number;
    piece: string;
    needMm: number;
    roomMm: number;
    what: "wall" | "cutout" | "piece";
    name: string;
  };
}
