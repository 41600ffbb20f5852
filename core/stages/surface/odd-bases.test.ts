import { expect, test } from "vitest";
import { baseJob, baseSurvey, steadyNumbers } from "../../../fixtures/bases.ts";
import type { SideKind } from "../../job/job.ts";
import { prepareBase } from "../preparation/preparation.ts";
import { judgeSurface } from "./surface.ts";

const KINDS: SideKind[] = ["wall", "door", "kerb", "open", "outlet", "pool"];

/** No figure is lost on the way: JSON turns NaN and Infinity into null, so they are looked for before. */
function lost(value: unknown): boolean {
  if (typeof value === "number") return !Number.isFinite(value);
  return typeof value === "object" && value !== null && Object.values(value).some(lost);
}

test("odd bases: bays, arcs, cut-outs over edges, readings twice, in line, outside, few, on whole millimetres", () => {
  const next = steadyNumbers(99);
  let judged = 0;
  for (let round = 0; round < 60; round++) {
    const corners = 4 + Math.floor(next() * 10);
    const ring: [number, number][] = [];
    for (let k = 0; k < corners; k++) {
      const t = (4 * k) / corners;
      const [dx, dy] = t < 1 ? [1 - t, t] : t < 2 ? [1 - t, 2 - t] : t < 3 ? [t - 3, 2 - t] : [t - 3, t - 4];
      const r = 800 + 3500 * next();
      ring.push([Math.round(dx * r), Math.round(dy * r)]);
    }
    const count = [2, 6, 20, 60, 150][round % 5]!;
    const snap = round % 2 ? 500 : 1;
    const slope = (next() - 0.5) * 0.1;
    const levels: [number, number, number][] = [];
    for (let k = 0; k < count; k++) {
      const x = Math.round((next() * 8000 - 4000) / snap) * snap;
      const y = round % 7 === 0 ? 100 : Math.round((next() * 8000 - 4000) / snap) * snap;
      levels.push([x, y, Math.round(slope * x - 0.02 * y + next() * 12)]);
    }
    const at = next() * 3000 - 1500;
    const cut = {
      name: "post",
      ring: [
        [at, at, 0],
        [at + 900, at, 0.4],
        [at + 900, at + 600, 0],
        [at, at + 600, -0.2],
      ] as [number, number, number][],
      gapMm: 5,
      height: (["tall", "flush", "removable"] as const)[round % 3]!,
    };
    const survey = baseSurvey(
      ring,
      levels,
      [KINDS[round % 6]!, KINDS[(round + 2) % 6]!, "open"],
      round % 4 ? [cut] : [],
    );
    survey.outline = survey.outline.map(([x, y], i) => [x, y, i % 3 === round % 5 ? 0.2 : 0]);
    const job = baseJob({ suspended: round % 3 === 0 });
    const stage = judgeSurface(job, survey);
    const prepared = prepareBase(job, survey, stage);
    expect(lost(stage)).toBe(false);
    expect(lost(prepared)).toBe(false);
    if (!stage.surface) continue;
    judged++;
    expect(stage.surface.plane.fall).toBeGreaterThanOrEqual(0);
    expect(prepared.options.length).toBeGreaterThan(0);
    if (prepared.chosen !== null) expect(prepared.options[prepared.chosen]!.feasible).toBe(true);
    if (stage.surface.verdict === "accept") expect(stage.findings.filter((f) => f.level !== "note")).toEqual([]);
    for (const p of stage.surface.puddles) {
      expect(p.depthMm).toBeGreaterThan(0);
      expect(p.volumeMm3).toBeLessThanOrEqual(p.areaMm2 * p.depthMm + 1e-3);
      expect(p.ring.length).toBeGreaterThanOrEqual(3);
    }
  }
  expect(judged).toBeGreaterThan(20);
});
