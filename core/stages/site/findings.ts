/** Codes of this stage and the data their sentences need. Sentences: words/<language>/site.ts. */
export interface SiteFindings {
  /** The new floor stands at or above the sill. */
  doorSill: { side: number; sillMm: number; riseMm: number; stepAfterMm: number };
  /** The step that is left under the sill, beside what guidance asks. */
  doorStep: { side: number; sillMm: number; riseMm: number; stepAfterMm: number; lowMm: number; dryMm: number };
  sillUnknown: { side: number; riseMm: number };
  /** The leaf sweeps lower than the boards lie. */
  doorLeaf: { side: number; leafClearMm: number; riseMm: number; opensKnown: boolean };
  leafUnknown: { side: number; riseMm: number };
  /** A guard is measured from the finished floor, which comes up. */
  guardRise: { riseMm: number; side: number | null };
  poolEdge: { side: number };
  /** The longest board grows by more than the gap at its end. */
  endGapCloses: { lengthMm: number; growthMm: number; gapMm: number; kelvin: number };
  /** Lids, weep slots and overflows keep their level while the floor comes up. */
  lidRise: { name: string; riseMm: number };
  weepSlots: { riseMm: number };
  channelsAcross: { alongFall: number; fall: number; limit: number; offDeg: number };
  channelsNone: Record<string, never>;
  channelsBlind: { side: number; kind: string };
  trimDams: { side: number };
  outletMissing: { towardsDeg: number; fall: number };
}
