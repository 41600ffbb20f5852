import { expect, test } from "vitest";
import { degreesOf, directionOf } from "./direction.ts";

test("quarter turns are exact and without minus zero", () => {
  expect(directionOf(0)).toEqual([1, 0]);
  expect(directionOf(90)).toEqual([0, 1]);
  expect(directionOf(180)).toEqual([-1, 0]);
  expect(directionOf(270)).toEqual([0, -1]);
  expect(directionOf(-90)).toEqual([0, -1]);
  expect(directionOf(720)).toEqual([1, 0]);
});

test("sine and cosine agree with the platform's within two units in the last place of 1", () => {
  let worst = 0;
  for (let i = -7200; i <= 7200; i++) {
    const deg = i / 10 + i / 7919;
    const [c, s] = directionOf(deg);
    const rad = (deg * Math.PI) / 180;
    worst = Math.max(worst, Math.abs(c - Math.cos(rad)), Math.abs(s - Math.sin(rad)));
  }
  // The platform reduces a rounded number of radians: at 720 degrees that alone is 1.8e-15.
  expect(worst).toBeLessThan(4e-15);
});

test("a direction and its angle are inverses", () => {
  for (let i = 0; i < 3600; i++) {
    const [c, s] = directionOf(i / 10);
    expect(degreesOf(c, s)).toBeCloseTo(i / 10, 11);
  }
  expect(degreesOf(0, 0)).toBe(0);
  expect(degreesOf(1, -1e-300)).toBe(0);
});
