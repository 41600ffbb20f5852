/** Codes of this stage and the data their sentences need. Sentences: words/<language>/preparation.ts. */
export interface PreparationFindings {
  noPreparation: { options: number };
  loadUnknown: { fillKgPerM2: number; boardsKgPerM2: number };
  loadOver: { fillKgPerM2: number; boardsKgPerM2: number; limitKgPerM2: number };
  loadConfirmed: { by: string; on: string; says: string; fillKgPerM2: number };
  thinEdges: { areaMm2: number; minMm: number; material: string; cutIn: boolean };
}

/** Why an option can, or cannot, be had. Sentences: words/<language>/preparation.ts. */
export type PreparationWhy =
  | "asIs"
  | "breaches"
  | "patched"
  | "fallNeedsPlane"
  | "tooUneven"
  | "puddlesStay"
  | "onePlane"
  | "ridgePlanes"
  | "houseward"
  | "grindTooDeep"
  | "fillTooThick"
  | "doorTooLow"
  | "fallNotHad"
  | "noMaterial";
