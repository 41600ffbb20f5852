/** Codes of this stage and the data their sentences need. Sentences: words/<language>/cutting.ts. */
export interface CuttingFindings {
  /** Not enough boards at hand or to be had. */
  supply: { missing: number; needed: number; atHand: number };
  /** A piece no board is long enough for. */
  pieceTooLong: { piece: string; lengthMm: number; longestMm: number };
  /** More offcuts wait at one time than anybody keeps in order. */
  offcutPile: { most: number; row: number; managed: number };
}
