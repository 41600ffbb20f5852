/** What a tap on the drawing met. Indices: pieces, clips, screws, levels, sides and cut-outs of the record; findings of the answer. */
export interface Hit {
  kind: "finding" | "piece" | "clip" | "screw" | "side" | "cutout" | "level";
  index: number;
}
