import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { loadJob } from "../../core/plan/load.ts";
import { makePlan } from "../../core/plan/make.ts";
import { planeAt } from "./deviation.ts";
import { probeBase } from "./probe.ts";

const loaded = loadJob(readFileSync(new URL("../../examples/courtyard.job.json", import.meta.url), "utf8"), "example");
if (!loaded.ok) throw new Error("the example is a job");
const record = makePlan(loaded.value);

test("at a reading the base stands as high as it was read", () => {
  for (const { xMm, yMm, zMm } of record.survey.levels) {
    const probe = probeBase(record, [xMm, yMm])!;
    expect(probe.zMm).toBeCloseTo(zMm, 6);
    expect(probe.nearest.mm).toBe(0);
    const plane = planeAt(record.surface.surface!, [xMm, yMm]);
    expect(probe.offMm).toBeCloseTo(zMm - (plane.a * xMm + plane.b * yMm + plane.c), 6);
  }
});

test("between readings the height lies between theirs, and no place is farther off the plane than the worst reading", () => {
  const { surface } = record.surface;
  const worst = Math.max(...record.survey.levels.map(({ xMm, yMm }) => Math.abs(probeBase(record, [xMm, yMm])!.offMm)));
  expect(worst).toBeLessThanOrEqual(surface!.zone.halfWidthMm + 1e-6);
  for (let x = 100; x < 6400; x += 410)
    for (let y = 100; y < 4200; y += 370) {
      const probe = probeBase(record, [x, y]);
      if (probe && !probe.carried) expect(Math.abs(probe.offMm)).toBeLessThanOrEqual(worst + 1e-6);
    }
});

test("outside the base nothing is known", () => {
  expect(probeBase(record, [1000, 4000])).toBeNull();
  expect(probeBase(record, [-5000, 0])).toBeNull();
});
