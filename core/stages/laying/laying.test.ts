import { describe, expect, it } from "vitest";
import { toUm } from "../../base/units.ts";
import type { Region } from "../../geometry/frame.ts";
import { fixClips } from "../fixing/fixing.ts";
import { box, type Sample, type SampleRow, sampleJob, sampleTerrace } from "../fixing/samples.ts";
import { orderLaying } from "./laying.ts";
import type { LayingRecord } from "./record.ts";

const half: SampleRow[] = [0, 1, 2, 3, 4, 5, 6].map((k) =>
  k % 2 ? { boards: [597.5, 1200, 597.5] } : { boards: [1200, 1200] },
);

function lay(sample: Sample): { record: LayingRecord; fixing: ReturnType<typeof fixClips> } {
  const fixing = fixClips(sample.job, sample.setout, sample.bond);
  return { record: orderLaying(sample.job, sample.setout, sample.bond, fixing), fixing };
}

/** Replaces a plain piece's region by the given outer ring, mm. */
function shape(sample: Sample, index: number, outer: [number, number][]): void {
  const region: Region = { outer: outer.map(([u, v]) => [toUm(u), toUm(v)] as const), holes: [] };
  sample.bond.pieces[index] = { ...sample.bond.pieces[index]!, region, plain: false };
}

describe("orderLaying", () => {
  it("lays every piece once and sets every clip once, before whatever covers it and after what it grips from below", () => {
    const sample = sampleTerrace(half);
    const { record, fixing } = lay(sample);
    expect(record.steps.map((s) => s.piece).sort((a, b) => a - b)).toEqual(sample.bond.pieces.map((_, i) => i));
    const laidAt = new Map(record.steps.map((s) => [s.piece, s.step]));
    const setAt = new Map<number, number>();
    for (const step of record.steps) {
      for (const clip of step.clipsBefore) setAt.set(clip, step.step - 0.25);
      for (const clip of step.clipsAfter) setAt.set(clip, step.step + 0.25);
    }
    expect(setAt.size).toBe(fixing.clips.length);
    expect(record.steps.flatMap((s) => [...s.clipsBefore, ...s.clipsAfter]).length).toBe(fixing.clips.length);
    fixing.clips.forEach((clip, i) => {
      for (const piece of clip.holds) {
        const row = sample.bond.pieces[piece]!.row;
        if (row === clip.seam || clip.kind === "last") expect(setAt.get(i)!).toBeLessThan(laidAt.get(piece)!);
        else expect(setAt.get(i)!).toBeGreaterThan(laidAt.get(piece)!);
      }
    });
    expect(record.findings).toEqual([]);
  });

  it("works from the start line outward and leaves what is cut when measured to the end of its row", () => {
    const sample = sampleTerrace(half);
    sample.bond.pieces[0] = { ...sample.bond.pieces[0]!, cutWhen: "measured" };
    const { record } = lay(sample);
    const rows = record.steps.map((s) => sample.bond.pieces[s.piece]!.row);
    expect(rows).toEqual([...rows].sort((a, b) => a - b));
    expect(record.steps.slice(0, 2).map((s) => s.piece)).toEqual([1, 0]);
  });

  it("asks for a check of the line every five rows and before the last", () => {
    const { record } = lay(sampleTerrace(half));
    expect(record.checkLines).toEqual([{ row: 5, vUm: 5 * 165_000 + 160_000 }]);
    const many = lay(sampleTerrace(Array.from({ length: 14 }, () => ({ boards: [1200] }))));
    expect(many.record.checkLines.map((c) => c.row)).toEqual([4, 9, 12]);
  });

  it("names the last row as captive where the wall leaves less than the clips need, and only then", () => {
    const roomy = lay(sampleTerrace(half, sampleJob({ gaps: { edge: 8 } })));
    expect(roomy.record.findings).toEqual([]);
    const tight = lay(sampleTerrace(half, sampleJob({ gaps: { edge: 7.9 } })));
    expect(new Set(tight.record.findings.map((f) => (f.data as { piece: string }).piece)).size).toBe(2);
    expect(tight.record.findings[0]!.found).toBe(7.9);
    const open = lay(sampleTerrace(half, sampleJob({ gaps: { edge: 2 } }), {}, ["wall", "wall", "open", "wall"]));
    expect(open.record.findings).toEqual([]);
  });

  it("finds a post behind a piece's notch, but not one the piece comes down onto", () => {
    const post = (v0: number, v1: number) => ({
      cutouts: [
        { name: "post", ring: box(toUm(500), toUm(v0), toUm(600), toUm(v1)), gapUm: 5000, height: "tall" as const },
      ],
    });
    const above = sampleTerrace([{ boards: [1200] }, { boards: [1200] }], undefined, post(100, 200));
    shape(above, 0, [
      [0, 0],
      [1200, 0],
      [1200, 160],
      [605, 160],
      [605, 95],
      [495, 95],
      [495, 160],
      [0, 160],
    ]);
    shape(above, 1, [
      [0, 165],
      [495, 165],
      [495, 205],
      [605, 205],
      [605, 165],
      [1200, 165],
      [1200, 325],
      [0, 325],
    ]);
    const { findings } = lay(above).record;
    expect(findings.map((f) => f.code)).toEqual(["captive"]);
    expect(findings[0]!.at).toEqual([550, 100]);
    expect(findings[0]!.found).toBe(5);
  });

  it("finds a slanting wall only where it is nearer than the clips need, measured the way the board moves", () => {
    const outline = (gap: number) => ({
      outline: [
        [-10, -10],
        [1210, -10],
        [1210, 165 + gap],
        [-10, 287 + gap],
      ].map(([u, v]) => [toUm(u!), toUm(v!)] as const),
    });
    const piece: [number, number][] = [
      [0, 0],
      [1200, 0],
      [1200, 100],
      [1000, 120],
      [0, 160],
    ];
    // the wall falls a tenth; over the piece's corners at u = 1000 and 1200 it leaves 66 mm + gap
    for (const gap of [0, -56, -57.9, -58.1, -60]) {
      const sample = sampleTerrace([{ boards: [1200] }], undefined, outline(gap));
      shape(sample, 0, piece);
      expect(lay(sample).record.findings.length > 0, `gap ${gap}`).toBe(66 + gap < 8);
    }
  });
});
