import type { CuttingFindings } from "../../core/stages/cutting/findings.ts";
import type { Sentences } from "../words.ts";

export const cutting: Sentences<CuttingFindings> = {
  supply: (data) => ({
    says: `The terrace takes ${data.needed} boards; ${data.atHand} can be had.`,
    do: `Get ${data.missing} more ${data.missing === 1 ? "board" : "boards"} before you start, or make the terrace smaller. The cut list counts them as bought.`,
  }),
  pieceTooLong: (data, _finding, write) => ({
    says: `Piece ${data.piece} is ${write.mm(data.lengthMm)} mm long and the longest board ${write.mm(data.longestMm)} mm.`,
    do: "Give a longer board, or a bond that puts a joint there.",
  }),
  offcutPile: (data) => ({
    says: `At row ${data.row + 1} up to ${data.most} offcuts wait to be used; about ${data.managed} can be kept in order.`,
    do: "Write board and piece on every offcut as you cut it, and stack them by row.",
  }),
};
