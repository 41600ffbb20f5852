import { describe, expect, it } from "vitest";
import { toUm } from "../../base/units.ts";
import { fixClips } from "./fixing.ts";
import type { FixingRecord } from "./record.ts";
import { box, type Sample, type SampleRow, sampleJob, sampleTerrace } from "./samples.ts";

const fix = ({ job, setout, bond }: Sample): FixingRecord => fixClips(job, setout, bond);
const mmBox = (u0: number, v0: number, u1: number, v1: number) => box(toUm(u0), toUm(v0), toUm(u1), toUm(v1));
const five: SampleRow[] = [1, 2, 3, 4, 5].map(() => ({ boards: [1200] }));
const half: SampleRow[] = [0, 1, 2, 3].map((k) =>
  k % 2 ? { boards: [597.5, 1200, 1200, 1200, 597.5] } : { boards: [1200, 1200, 1200, 1200] },
);
const codes = (record: FixingRecord): string[] => record.findings.filter((f) => f.level !== "note").map((f) => f.code);

describe("fixClips", () => {
  it("sets no end clip into a notch that is open to one side", () => {
    const sample = sampleTerrace([{ boards: [220] }]);
    const piece = sample.bond.pieces[0]!;
    const at = (u: number, v: number) => [toUm(u), toUm(v)] as const;
    const outer = [at(0, 0), at(80, 0), at(80, 120), at(140, 120), at(140, 0), at(220, 0), at(220, 160), at(0, 160)];
    sample.bond.pieces[0] = { ...piece, plain: false, region: { outer, holes: [] } };
    const ends = fix(sample).clips.filter((clip) => clip.kind === "end");
    expect(ends.length).toBeGreaterThan(0);
    for (const { uUm, vUm } of ends) expect(uUm <= 80_000 || uUm >= 140_000 || vUm >= 120_000).toBe(true);
  });

  it("gives up demands that cannot be met, as many as there are, and never more", () => {
    // nine clips of 120 mm do not stand on a piece of 500 mm: five do, and that is said
    const short: SampleRow[] = [0, 1, 2].map(() => ({ boards: [1200, 500] }));
    const record = fix(sampleTerrace(short, sampleJob({ clips: { perPiece: 9 } })));
    expect(codes(record)).toContain("clips");
    // two runs on one seam, fourteen clips too many each
    const free = ["open", "open", "open", "open"] as const;
    const many = sampleJob({ clips: { perPiece: 20 } });
    const two = fix(sampleTerrace([{ boards: [700] }, { boards: [700] }], many, {}, free));
    expect(two.counts.seam).toBe(6);
    expect(codes(two).filter((code) => code === "clips").length).toBeGreaterThan(1);
  });

  it("gives the square metre of five boards 8 seam, 3 start and 3 last clips", () => {
    const record = fix(sampleTerrace(five));
    expect(record.counts).toEqual({ start: 3, seam: 8, last: 3, end: 10 });
    expect(codes(record)).toEqual([]);
    expect(record.heldBy.every((held) => held[0] === "clips" && held[1] === "clips")).toBe(true);
  });

  it("shares joint clips: a board in half bond takes two clips an edge of its own row's joints and the neighbour's", () => {
    const record = fix(sampleTerrace(half));
    expect(codes(record)).toEqual([]);
    const inner = record.clips.filter((c) => c.kind === "seam" && c.holds.length === 3);
    expect(inner.length).toBeGreaterThan(0);
    // joints of both rows stand 602.5 mm apart: within 500 mm clear between bodies of 120 mm, not centre to centre
    const centre = fix(sampleTerrace(half, sampleJob({ clips: { measure: "centre" } })));
    expect(centre.counts.seam).toBeGreaterThan(record.counts.seam);
  });

  it("numbers clips by seam, then u, and puts them in the middle of the row gap on whole centimetres", () => {
    const record = fix(sampleTerrace(half));
    record.clips.forEach((clip, i) => {
      expect(clip.id).toBe(`c${i + 1}`);
      const before = record.clips[i - 1];
      if (before) expect(before.seam < clip.seam || (before.seam === clip.seam && before.uUm <= clip.uUm)).toBe(true);
      if (clip.kind === "end") return;
      expect(clip.vUm).toBe(clip.seam * 165_000 - 2500);
      expect(clip.uUm % 10_000).toBe(0);
      expect(Math.min(-clip.playUm[0], clip.playUm[1])).toBeGreaterThanOrEqual(15_000);
    });
  });

  it("lets one seam carry start, seam and last clips where the field has a step", () => {
    const record = fix(sampleTerrace([{ boards: [1200] }, { from: 600, boards: [1200] }]));
    const kinds = new Set(record.clips.filter((c) => c.seam === 1).map((c) => c.kind));
    expect(kinds).toEqual(new Set(["start", "seam", "last", "end"]));
    for (const clip of record.clips.filter((c) => c.seam === 1 && c.kind !== "end")) {
      const over = clip.uUm >= 600_000;
      const under = clip.uUm <= 1_200_000;
      expect(clip.kind).toBe(over && under ? "seam" : over ? "start" : "last");
    }
  });

  it("never drills in a no-drill area, holds joints beside a barred place without a finding, and names what it cannot hold", () => {
    const small = { name: "loop", ring: mmBox(1150, 100, 1255, 200) };
    const beside = fix(sampleTerrace(half, undefined, { noDrill: [small] }));
    const inside = (record: FixingRecord, b: [number, number, number, number]) =>
      record.clips.filter((c) => c.uUm > toUm(b[0]) && c.uUm < toUm(b[2]) && c.vUm > toUm(b[1]) && c.vUm < toUm(b[3]));
    expect(inside(beside, [1150, 100, 1255, 200])).toEqual([]);
    expect(codes(beside)).toEqual([]);
    const wide = fix(sampleTerrace(half, undefined, { noDrill: [{ name: "loop", ring: mmBox(200, 100, 2200, 200) }] }));
    expect(inside(wide, [200, 100, 2200, 200])).toEqual([]);
    for (const code of codes(wide)) expect(["clips", "clipSpacing", "clipEnd", "jointClip"]).toContain(code);
    expect(codes(wide).length).toBeGreaterThan(0);
    for (const f of wide.findings.filter((x) => x.level === "warn")) {
      expect(f.at![0]).toBeGreaterThan(0);
      expect(Math.abs(f.at![1] - 162.5)).toBeLessThan(1);
    }
  });

  it("keeps the distance to base joints and to free slab edges, not to those along a wall", () => {
    const line = { baseJoints: [[[toUm(610), toUm(-50)] as const, [toUm(610), toUm(900)] as const]] };
    const joint = fix(sampleTerrace(half, undefined, line));
    for (const clip of joint.clips) expect(Math.abs(clip.uUm - 610_000)).toBeGreaterThanOrEqual(60_000);
    const slab = { slab: mmBox(-10, -10, 4825, 665) };
    const walled = fix(sampleTerrace(half, undefined, slab));
    expect(walled.counts).toEqual(fix(sampleTerrace(half)).counts);
    const open = fix(sampleTerrace(half, undefined, slab, ["open", "wall", "wall", "wall"]));
    expect(open.counts.start).toBe(0);
    expect(codes(open).filter((c) => c === "clips").length).toBeGreaterThan(0);
  });

  it("holds an edge over a free slab edge by the trim that covers it", () => {
    const job = sampleJob({
      trim: { length: 2400, price: 1000, leg: 40, thickness: 2, vent: true, screwSpacing: 300 },
    });
    const slab = { slab: mmBox(-10, -10, 1210, 830) };
    const record = fix(sampleTerrace(five, job, slab, ["open", "wall", "wall", "wall"]));
    expect(record.heldBy[0]).toEqual(["trim", "clips"]);
    expect(codes(record)).not.toContain("oneEdge");
  });

  it("screws a ripped edge where the strip is wide enough, and says so where it is not", () => {
    const wide = sampleTerrace(five);
    rip(wide, 0, 54);
    const screwed = fix(wide);
    expect(screwed.heldBy[0]![0]).toBe("screws");
    const piece = wide.bond.pieces[0]!;
    for (const screw of screwed.screws) {
      expect(screw.vUm - piece.v0Um).toBeGreaterThanOrEqual(53_000);
      expect(piece.v1Um - screw.vUm).toBeGreaterThanOrEqual(53_000);
      expect(Math.min(screw.uUm - piece.u0Um, piece.u1Um - screw.uUm)).toBeGreaterThanOrEqual(53_000);
    }
    expect(screwed.screws.length).toBe(3);
    const narrow = sampleTerrace(five);
    rip(narrow, 0, 55);
    const loose = fix(narrow);
    expect(loose.heldBy[0]).toEqual(["none", "clips"]);
    expect(codes(loose)).toEqual(["oneEdge", "oneEdge"]);
    expect(loose.counts.start).toBe(0);
  });

  it("asks for the slab's edge at an open side when nobody has given it", () => {
    const record = fix(sampleTerrace(five, undefined, {}, ["open", "wall", "open", "wall"]));
    expect(record.findings.filter((f) => f.code === "slabUnknown").length).toBe(2);
  });

  it("gives both ends of every row an end clip, in the piece and within one clip length of the end", () => {
    const sample = sampleTerrace(half);
    const record = fix(sample);
    for (const row of sample.setout.rows) {
      const ends = record.clips.filter((c) => c.kind === "end" && c.seam === row.row);
      expect(ends.length).toBe(2);
      expect(ends[0]!.uUm - sample.setout.spans[row.row]!.u0Um).toBeLessThanOrEqual(120_000);
      expect(sample.setout.spans[row.row]!.u1Um - ends[1]!.uUm).toBeLessThanOrEqual(120_000);
      for (const end of ends) expect(end.vUm > row.v0Um && end.vUm < row.v1Um).toBe(true);
    }
  });

  it("gives the same answer twice, and to a terrace that stands elsewhere", () => {
    const one = fix(sampleTerrace(half));
    expect(fix(sampleTerrace(half))).toEqual(one);
    const moved = fix(sampleTerrace(half.map((r) => ({ ...r, from: 1000 }))));
    expect(moved.clips.map((c) => c.uUm - 1_000_000)).toEqual(one.clips.map((c) => c.uUm));
  });
});

/** Rips the lower edge of a plain piece so that `by` mm are gone. */
function rip(sample: Sample, index: number, by: number): void {
  const piece = sample.bond.pieces[index]!;
  const v0 = piece.v0Um + toUm(by);
  sample.bond.pieces[index] = {
    ...piece,
    v0Um: v0,
    widthUm: piece.v1Um - v0,
    edges: ["ripped", "groove"],
    region: { outer: box(piece.u0Um, v0, piece.u1Um, piece.v1Um), holes: [] },
  };
}
