import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { SHAPES, samplePapers } from "../papers/testing/papers.ts";
import { writeSvg } from "../write/svg.ts";

/**
 * Drawings to look at. A drawing that differs is written beside the kept one as *.actual.svg; run with
 * GOLDEN=update to keep the new ones after you have looked at them.
 */
const KEPT = [
  ["courtyard", "base", 0],
  ["courtyard", "setout", 0],
  ["courtyard", "setout", 1],
  ["courtyard", "fixing", 0],
  ["slanting", "base", 0],
  ["slanting", "setout", 0],
  ["niche", "setout", 0],
  ["niche", "fixing", 0],
  ["unreleased", "fixing", 0],
  ["unlevelled", "base", 0],
] as const;
const kept = KEPT.map(([shape, drawing, sheet]): [string, () => string] => [
  `${shape}-${drawing}-${sheet + 1}`,
  () => writeSvg(samplePapers(SHAPES[shape])[drawing].sheets[sheet]!),
]);

describe("golden drawings", () => {
  it.each(kept)("%s is as kept", (name, draw) => {
    const file = new URL(`${name}.svg`, import.meta.url);
    const actual = new URL(`${name}.actual.svg`, import.meta.url);
    const svg = draw();
    if (process.env.GOLDEN === "update") writeFileSync(file, svg);
    const good = existsSync(file) ? readFileSync(file, "utf8") : "";
    if (svg === good) rmSync(actual, { force: true });
    else writeFileSync(actual, svg);
    expect(svg === good, `${name}.svg differs: look at golden/${name}.actual.svg`).toBe(true);
  });
});
