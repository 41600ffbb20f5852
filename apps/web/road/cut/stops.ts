import type { Cut } from "../../../../papers/pieces.ts";

/** Pieces that come off the same settings of the saw, longest stop first, then widest. */
export function groupsOf(cuts: readonly Cut[]): Cut[][] {
  const width = (cut: Cut) => cut.ripMm ?? Number.MAX_SAFE_INTEGER;
  const sorted = [...cuts].sort((a, b) => b.stopMm - a.stopMm || width(b) - width(a) || a.piece - b.piece);
  const groups = new Map<string, Cut[]>();
  for (const cut of sorted) {
    const shape =
      cut.shape === "square" ? "" : `${cut.nearMm} ${cut.farMm} ${cut.leanLeftMm} ${cut.leanRightMm} ${cut.shape}`;
    const key = `${cut.stopMm} ${cut.ripMm} ${shape}`;
    const group = groups.get(key);
    if (group) group.push(cut);
    else groups.set(key, [cut]);
  }
  return [...groups.values()];
}
