import type { LayingFindings } from "../../core/stages/laying/findings.ts";
import type { Sentences } from "../words.ts";

export const laying: Sentences<LayingFindings> = {
  captive: (d, _, write) => {
    const thing =
      d.what === "wall" ? "the wall" : d.what === "piece" ? `piece ${d.name}` : d.name ? `"${d.name}"` : "the cut-out";
    return {
      says: `Row ${d.row + 1}, piece ${d.piece}: it must come in ${write.mm1(d.needMm)} mm from its click, and ${thing} leaves ${write.mm1(d.roomMm)} mm.`,
      do:
        d.what === "cutout"
          ? "Put a joint at the obstacle, or widen the cut behind it by what is missing and cover it with a collar."
          : "Start from this side and close at the free one, widen the gap here by what is missing, or fold the clip's upper part back and press the board in.",
    };
  },
};
