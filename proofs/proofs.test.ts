import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { allProofs, proofsPage } from "./proofs.ts";

for (const proof of allProofs)
  test(`${proof.id}: ${proof.claim}`, () => {
    expect(Number.isFinite(proof.ours)).toBe(true);
    expect(Math.abs(proof.ours - proof.published)).toBeLessThanOrEqual(proof.allowed);
  });

test("there are at least 25, each with a name of its own", () => {
  expect(allProofs.length).toBeGreaterThanOrEqual(25);
  expect(new Set(allProofs.map((p) => p.id)).size).toBe(allProofs.length);
});

test("PROOFS.md is what the proofs say today (npm run proofs writes it)", () => {
  expect(readFileSync(new URL("../PROOFS.md", import.meta.url), "utf8")).toBe(proofsPage(allProofs));
});
