import type { ClipKind } from "../../core/stages/fixing/record.ts";

/** The fix step. Figures come in as text. */
export interface FixWords {
  noRecord: string;
  count: string;
  kinds: Record<ClipKind | "screw", string>;
  /** A single one. */
  one: Record<ClipKind, string>;
  total: string;
  depth: string;
  /** One depth for all, or from to. */
  depthOne(mm: string): string;
  depthRange(least: string, most: string): string;
  depthHint(embed: string): string;
  bit(diameter: string): string;
  noDrill: string;
  noDrillNone: string;
  barred: string;
  barredNone: string;
  show(name: string): string;
  clip: {
    ask: string;
    head(kind: string, id: string): string;
    play(left: string, right: string): string;
    depth(mm: string): string;
    holds(pieces: string): string;
    screw(piece: string): string;
  };
  released: string;
  held: string;
  confirmFor: Record<"membrane" | "heating" | "tendons", string>;
  open: string;
}
