import type { CutWords } from "../../app/cut.ts";

export const cut: CutWords = {
  noRecord: "The saw list comes when there is a set-out.",
  boards: (boards, pieces) => `${pieces} pieces from ${boards} boards`,
  bound: {
    met: (boards) => `No way of cutting needs fewer than ${boards}. That is proved.`,
    over: (boards, least) =>
      `It is proved that fewer than ${least} never do. Between ${least} and ${boards} nobody has found a way, and nobody has ruled it out.`,
  },
  scope: {
    pieces: "The proof holds for the pieces of this set-out.",
    joints: "The proof holds for this row grid, wherever the joints are put.",
  },
  saw: (cuts, rips) => `${cuts} cuts across, ${rips} rips along`,
  waste: (m2, percent) => `${m2} m² are left over, ${percent}`,
  stops: "Saw list by stop",
  stopsHint: "Longest first: the stop is set once and all its pieces are cut.",
  measured: "Cut when measured",
  measuredHint: "These close a row or are the last rip. Measure on site, then cut.",
  none: "None.",
  columns: { stop: "Stop", rip: "Rip to", count: "Pieces", pieces: "Which" },
  slanting: (near, far) => `lower edge ${near}, upper edge ${far}`,
  shaped: "cut round what stands there, see the drawing",
  show: (piece) => `Show ${piece}`,
  byBoard: "Board by board",
  byBoardHint: (whole) => (whole === 1 ? "One board is laid whole." : `${whole} boards are laid whole.`),
  board: (id, length) => `${id}, ${length} mm`,
  part: (id, stop, rip) => (rip ? `${id}: ${stop} × ${rip}` : `${id}: ${stop}`),
  rest: "Left over",
  restNone: "nothing",
  picture: (board, parts) => `Board ${board} and ${parts === 1 ? "its part" : `its ${parts} parts`}`,
  more: (count) => `Show ${count} more`,
};
