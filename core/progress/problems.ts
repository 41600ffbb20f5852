/** What can be wrong with a progress file that its schema cannot say, alone or held against its plan. */
export interface ProgressProblems {
  eventTwice: { id: string; first: number };
  undoOfNothing: { event: string; nearest: string | null };
  undoOfLater: { event: string };
  undoTwice: { event: string; first: string };
  undoOfUndo: { event: string };
  laidTwice: { piece: string; first: string };
  brokenWhat: Record<string, never>;
  otherJob: { found: string; expected: string };
  otherPlan: { found: string; expected: string };
  notInPlan: { what: "piece" | "board" | "clip" | "row" | "side" | "joint"; found: string; nearest: string | null };
}
