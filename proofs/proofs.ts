/** Every check of the main job against the world outside, gathered; PROOFS.md is written from it (`npm run proofs`). */
import { cuttingProofs } from "./cutting.ts";
import { fixingProofs } from "./fixing.ts";
import { practiceProofs } from "./practice.ts";
import type { Proof } from "./proof.ts";
import { surfaceProofs } from "./surface.ts";
import { surveyProofs } from "./survey.ts";

export const allProofs: Proof[] = [
  ...surveyProofs,
  ...surfaceProofs,
  ...cuttingProofs,
  ...fixingProofs,
  ...practiceProofs,
];

/** PROOFS.md as text. */
export function proofsPage(proofs: Proof[]): string {
  const rows = proofs.map((p) => {
    const difference = p.ours - p.published;
    return `| ${p.claim} | ${p.source} | ${p.status} | ${figure(p.published)} | ${figure(p.ours)} | ${figure(difference)} | ${figure(p.allowed)} | ${p.unit} | ${p.why} |`;
  });
  return `# Proofs: the main job against the world outside

${proofs.length} checks, recomputed by every test run. Status: READ seen in the source or a faithful copy; 2nd seen on a secondary page;
MEM from memory; RECOMPUTED from the published inputs by other code; practice: common practice, no source.

| claim | source | status | published | ours | difference | allowed | unit | why this much |
|---|---|---|---|---|---|---|---|---|
${rows.join("\n")}
`;
}

function figure(value: number): string {
  const text = Number.isInteger(value) ? String(value) : String(Number(value.toPrecision(11)));
  return text === "-0" ? "0" : text;
}
