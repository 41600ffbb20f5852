/** What a tap on the drawing met. Indices: pieces, clips, screws, levels, sides and cut-outs of the record; findings of the answer. */
export interface Hit {
  kind: "finding" | "piece" | "clip" | "screw" | "side" | "cutout" | "level";
  index: number;
}

export function sameHit(a: Hit | null | undefined, b: Hit | null | undefined): boolean {
  return a?.kind === b?.kind && a?.index === b?.index;
}
