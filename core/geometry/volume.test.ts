import { expect, test } from "vitest";
import { steadyNumbers } from "../../fixtures/bases.ts";
import { clipAbove, polygonVolume } from "./clip-prism.ts";
import { aboveLevel } from "./volume.ts";

test("volume and area above a level: the same as cutting every triangle and adding up its prisms", () => {
  const next = steadyNumbers(9);
  for (let round = 0; round < 500; round++) {
    const x = [0, 1000 + 500 * next(), 400 * next()];
    const y = [0, 300 * next(), 1000 + 500 * next()];
    const h = [next() * 10 - 5, next() * 10 - 5, round % 5 === 0 ? 0 : next() * 10 - 5];
    const level = round % 3 === 0 ? 0 : next() * 4 - 2;
    const ours = aboveLevel({ x, y, corners: [0, 1, 2] }, h, level);
    const cut = clipAbove(
      x.map((_, i): [number, number, number] => [x[i]!, y[i]!, h[i]! - level]),
      2,
      0,
      1,
    );
    expect(ours.volumeMm3).toBeCloseTo(polygonVolume(cut), 4);
    expect(ours.areaMm2).toBeCloseTo(polygonVolume(cut.map(([px, py]) => [px, py, 1])), 4);
    const below = aboveLevel(
      { x, y, corners: [0, 1, 2] },
      h.map((v) => -v),
      -level,
    );
    const whole = polygonVolume(x.map((_, i): [number, number, number] => [x[i]!, y[i]!, h[i]! - level]));
    expect(ours.volumeMm3 - below.volumeMm3).toBeCloseTo(whole, 4);
  }
});
