/** Codes of this stage and the data their sentences need. Sentences: words/<language>/takeoff.ts. */
export interface TakeoffFindings {
  /** Items nobody has given a price for, by item code. */
  unpriced: { items: string[] };
  /** The spares rule asks for more boards than the stock at hand leaves. */
  spareStock: { wanted: number; had: number };
  /** Boards come from several packs: shades may differ. */
  batches: { packs: number };
  /** Clips are fixed through filling of unlike thickness: more than one length of fixing. */
  fixingLengths: { leastMm: number; greatestMm: number; lengths: number };
  /** Tiles or paving over a bedding nobody has measured: the fixing's length is not known. */
  fixingDepth: { embedMm: number; kind: string };
  /** No levels: the fixing's length is taken without any filling. */
  fixingNoLevels: { embedMm: number };
  /** An open side without a trim in the job. */
  trimMissing: { side: number; lengthMm: number };
  /** An open side that curves. */
  trimCurved: { side: number; lengthMm: number };
  /** A corner so sharp that the mitre is out of a usual saw's reach. */
  trimMitre: { side: number; cornerDeg: number };
}
