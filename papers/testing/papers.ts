import { drawingLabels } from "../../words/en/drawing.ts";
import { basePaper } from "../base.ts";
import { fixingPaper } from "../fixing.ts";
import { setoutPaper } from "../setout.ts";
import type { Paper } from "../sheet.ts";
import { sampleFindings } from "./findings.ts";
import { type SampleWish, sampleRecord } from "./sample.ts";
import { testWords } from "./words.ts";

export const HOSTILE = [
  "<script>alert('1')</script> & \"quoted\"",
  "100 %% of 50 % ; ^J \\U+0041 %%d",
  "bell \u0007 null \u0000 tab\tline\nend \uffff \ud800",
  "\u202eright to left \u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627",
  "emoji \u{1f600}\u{1f468}\u200d\u{1f469} \u01c5 \u0159\u016f\u017e",
  "=HYPERLINK(1)",
  "x".repeat(500),
];

/** The three drawings of a sample, as the program would make them. */
export function samplePapers(
  wish: Partial<SampleWish> = {},
  proof: string | null = "every rule holds; no breach is excused",
): { base: Paper; setout: Paper; fixing: Paper } {
  const record = sampleRecord({ findings: sampleFindings(), ...wish });
  const words = testWords();
  return {
    base: basePaper(record, words, drawingLabels, proof),
    setout: setoutPaper(record, words, drawingLabels, proof),
    fixing: fixingPaper(record, words, drawingLabels, proof),
  };
}

/** Shapes of every kind: L with a door, slanting with an arc and turned rows, a niche, a long hall, a U. */
export const SHAPES: Record<string, Partial<SampleWish>> = {
  courtyard: {},
  slanting: {
    angleDeg: 37,
    outline: [
      [0, 0, 0],
      [9000, -800, 0.2],
      [9500, 5200, 0],
      [3000, 7000, 0],
    ],
    kinds: ["wall", "pool", "open", "kerb"],
  },
  niche: {
    findings: [],
    outline: [
      [0, 0, 0],
      [1630, 0, 0],
      [1630, 1190, 0],
      [0, 1190, 0],
    ],
    kinds: ["wall", "wall", "open", "wall"],
  },
  hall: {
    outline: [
      [0, 0, 0],
      [4000, 0, 0],
      [4000, 26000, 0],
      [0, 26000, 0],
    ],
    kinds: ["open", "wall", "door", "wall"],
    angleDeg: 90,
  },
  u: {
    outline: [
      [0, 0, 0],
      [12000, 0, 0],
      [12000, 6000, 0],
      [10500, 6000, 0],
      [10500, 2000, 0],
      [1500, 2000, 0],
      [1500, 6000, 0],
      [0, 6000, 0],
    ],
    kinds: ["wall"],
  },
  unreleased: { released: false },
  unlevelled: { levels: false },
};
