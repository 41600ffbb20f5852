/** One check of the main job against the world outside: a line of PROOFS.md, recomputed by the tests. */
export interface Proof {
  id: string;
  claim: string;
  source: string;
  /** READ seen in the source or a faithful copy; 2nd on a secondary page; MEM from memory; RECOMPUTED by other code; practice: common practice, no source. */
  status: "READ" | "2nd" | "MEM" | "RECOMPUTED" | "practice";
  published: number;
  ours: number;
  allowed: number;
  unit: string;
  /** Why this much difference is allowed. */
  why: string;
}
