import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { randomJob } from "../../../fixtures/random.ts";
import { jobWith, NO_SURFACE, siteOf } from "../../../fixtures/site.ts";
import { toSite } from "../../geometry/frame.ts";
import { overlapArea } from "../../geometry/region.ts";
import { rectangle, regionArea } from "../../geometry/ring.ts";
import type { Job } from "../../job/job.ts";
import type { SetoutRecord } from "../setout/record.ts";
import { setOut } from "../setout/setout.ts";
import { chooseBond } from "./bond.ts";
import type { BondRecord } from "./record.ts";

type Raw = Record<string, unknown>;
interface Bonded {
  job: Job;
  setout: SetoutRecord;
  bond: BondRecord;
}
function bonded(raw: Raw, kind?: string): Bonded | null {
  const site = siteOf(raw);
  if (site === null) return null;
  // The free bond has tests of its own.
  if (kind !== undefined) site.job.bond.kind = kind as Job["bond"]["kind"];
  const setout = setOut(site.job, site.survey, NO_SURFACE);
  return { job: site.job, setout, bond: chooseBond(site.job, setout) };
}
function lattice(seed: number): Bonded | null {
  const raw = randomJob(seed) as { bond?: Raw };
  return bonded(raw as Raw, raw.bond?.kind === "free" ? "half" : undefined);
}
const room = (length: number, bond: Raw = {}, width = 1000) =>
  jobWith(
    [
      [0, 0],
      [length, 0],
      [length, width],
      [0, width],
    ],
    { gaps: { edge: 0 }, bond },
  );
const shiftOf = (kind: string, row: number, pitch: number): number =>
  kind === "half" ? ((row % 2) * pitch) / 2 : kind === "third" ? ((row % 3) * pitch) / 3 : 0;

describe("the lattice", () => {
  it("is one phase for the field: half, third and stack, shift as given", () => {
    for (const [kind, length, shift] of [
      ["half", 8000, 700],
      ["third", 8400, 900],
      ["stack", 8000, 700],
    ] as const) {
      const { bond, job, setout } = bonded(room(length, { kind, shift }))!;
      expect(bond.joints.length).toBeGreaterThan(20);
      const pitch = (1500 + job.gaps.end) * 1000;
      const first = bond.joints.filter((j) => j.row === 0)[0]!;
      expect(first.uUm).toBe(shift * 1000);
      for (const joint of bond.joints) {
        const off = (joint.uUm - bond.phaseUm - shiftOf(kind, joint.row, pitch)) / pitch;
        expect(Math.abs(off - Math.round(off)) * pitch).toBeLessThan(2);
      }
      expect(bond.findings).toEqual([]);
      expect(setout.rows.length).toBe(7);
    }
  });

  it("needs no joint where one board spans, whatever the bond", () => {
    const { bond } = bonded(room(1500))!;
    expect(bond.joints).toEqual([]);
    expect(bond.pieces.every((p) => p.lengthUm === 1_500_000)).toBe(true);
    expect(bonded(room(1501))!.bond.joints.length).toBe(bonded(room(1501))!.setout.rows.length);
  });

  it("moves the nearest joint least where it would leave less than minPiece, and names place and distance", () => {
    const { bond, setout, job } = bonded(room(8000, { shift: 102.5 }))!;
    const even = bond.joints.filter((j) => j.row === 0).map((j) => j.uUm / 1000);
    expect(even[0]).toBe(302.5);
    expect(even[1]).toBe(102.5 + 1505);
    const moved = bond.findings.filter((f) => f.code === "jointMoved" && (f.data as { row: number }).row === 0);
    expect(moved.length).toBe(1);
    expect(moved[0]).toMatchObject({ rule: "bond", level: "warn", found: 200 });
    const [x] = toSite(setout.frame, 302_500, 0);
    expect(moved[0]!.at![0]).toBeCloseTo(x, 3);
    expect(bond.pieces.every((p) => p.lengthUm >= job.bond.minPiece * 1000)).toBe(true);
  });

  it("chooses a shift that moves nothing where there is one", () => {
    for (const length of [4000, 5210, 6400, 7333, 9001, 12_345]) {
      for (const kind of ["half", "third", "stack"]) {
        const { bond } = bonded(room(length, { kind }))!;
        expect(bond.findings, `${kind} ${length}`).toEqual([]);
        expect(bond.reasons[0]!.code).toBe("shiftChosen");
      }
    }
  });
});

describe("at cut-outs", () => {
  const post = (x: number, bond: Raw = {}) =>
    jobWith(
      [
        [0, 0],
        [6000, 0],
        [6000, 1000],
        [0, 1000],
      ],
      {
        gaps: { edge: 0 },
        bond: { firstRow: 145, ...bond },
        site: {
          cutouts: [
            {
              name: "post",
              ring: [
                [x, 40],
                [x + 100, 40],
                [x + 100, 80],
                [x, 80],
              ],
              gap: 5,
              height: "tall",
            },
          ],
        },
      },
    );

  it("puts a joint at a post 35 mm inside a board's edge", () => {
    for (const x of [700, 1234, 2750, 4444, 5100]) {
      const { bond, setout } = bonded(post(x))!;
      expect(setout.spans[0]!.mustJoint.length).toBeGreaterThan(0);
      const at = bond.joints.filter((j) => j.row === 0 && j.uUm >= (x - 5) * 1000 && j.uUm <= (x + 105) * 1000);
      expect(at.length).toBeGreaterThan(0);
      expect(bond.pieces.every((p) => p.region.holes.length === 0)).toBe(true);
    }
  });

  it("plans every fixture of the trade, no piece longer than a board, none over what stands", () => {
    for (const name of ["post-inside-edge", "downpipe-corner", "niche", "pool-coping", "u-shape", "one-square-metre"]) {
      const text = readFileSync(new URL(`../../../fixtures/jobs/${name}.job.json`, import.meta.url), "utf8");
      const { bond, setout, job } = bonded(JSON.parse(text) as Raw)!;
      expect(bond.pieces.length, name).toBeGreaterThan(0);
      const longest = Math.max(...job.board.lengths.map((l) => l.length)) * 1000;
      for (const piece of bond.pieces) expect(piece.lengthUm).toBeLessThanOrEqual(longest);
      for (const cutout of setout.site.cutouts) {
        expect(
          overlapArea(
            bond.pieces.map((p) => p.region.outer),
            [cutout.ring],
          ) < 1e6 || cutout.height === "flush",
        ).toBe(true);
      }
    }
  });

  it("gives five boards for the square metre", () => {
    const text = readFileSync(new URL("../../../fixtures/jobs/one-square-metre.job.json", import.meta.url), "utf8");
    const { bond } = bonded(JSON.parse(text) as Raw)!;
    // Common practice, no source: five boards of 1200 mm one above the other.
    expect(bond.pieces.map((p) => [p.lengthUm, p.widthUm])).toEqual(Array(5).fill([1_200_000, 160_000]));
  });
});

describe("on random jobs", () => {
  it("pieces, end gaps and what is named make up the spans exactly: 150 jobs", () => {
    for (let seed = 0; seed < 150; seed++) {
      const done = lattice(seed);
      if (done === null) continue;
      const { bond, setout, job } = done;
      const end = Math.round(job.gaps.end * 1000);
      const bySpan = setout.spans.map(() => 0);
      for (const piece of bond.pieces) bySpan[piece.span]! += regionArea(piece.region);
      // Gaps as boxes across the strip, one for each joint of a span.
      const gaps = setout.spans.map(() => new Map<number, true>());
      for (const joint of bond.joints) gaps[bond.pieces[joint.left]!.span]!.set(joint.uUm, true);
      let scrap = 0;
      for (const f of bond.findings)
        if (f.code === "scrapLeftOut") scrap += (f.data as { areaMm2: number }).areaMm2 * 1e6;
      let rest = 0;
      setout.spans.forEach((span, i) => {
        const row = setout.rows[span.row]!;
        let gap = 0;
        for (const u of gaps[i]!.keys()) {
          const box = rectangle(Math.round(u - end / 2), row.v0Um, Math.round(u + end / 2), row.v1Um);
          gap += span.plain
            ? end * (span.v1Um - span.v0Um)
            : overlapArea([span.region.outer], [box]) -
              overlapArea(
                span.region.holes.map((h) => [...h].reverse()),
                [box],
              );
        }
        const missing = regionArea(span.region) - bySpan[i]! - gap;
        if (span.plain) expect(missing, `seed ${seed}`).toBe(0);
        rest += missing;
      });
      // Scraps are named in full; crossings are rounded to a micrometre.
      expect(Math.abs(rest - scrap), `seed ${seed}`).toBeLessThan(5e6 + scrap);
    }
  });

  it("every rule holds or is named at its place: 150 jobs", () => {
    for (let seed = 300; seed < 450; seed++) {
      const done = lattice(seed);
      if (done === null) continue;
      const { bond, setout, job } = done;
      const named = (rule: string, row: number, u: number, v: number) => {
        const [x, y] = toSite(setout.frame, u, v);
        return bond.findings.some((f) => {
          const dx = f.at![0] - x;
          const dy = f.at![1] - y;
          return f.rule === rule && (f.data as { row: number }).row === row && dx * dx + dy * dy <= 400 * 400;
        });
      };
      const longest = Math.max(...job.board.lengths.map((l) => l.length)) * 1000;
      const pitch = longest + job.gaps.end * 1000;
      const jointed = new Set(bond.joints.flatMap((j) => [j.left, j.right]));
      bond.pieces.forEach((piece, i) => {
        const v = (piece.v0Um + piece.v1Um) / 2;
        const u = (piece.u0Um + piece.u1Um) / 2;
        expect(piece.id).toBe(`p${i + 1}`);
        expect(piece.lengthUm <= longest && piece.lengthUm > 0).toBe(true);
        if (piece.widthUm < job.bond.minRip * 1000) expect(named("minRip", piece.row, u, v), `seed ${seed}`).toBe(true);
        if (jointed.has(i) && piece.lengthUm < job.bond.minPiece * 1000) {
          expect(named("minPiece", piece.row, u, v), `seed ${seed}`).toBe(true);
        }
      });
      const rows = new Map<number, number[]>();
      for (const joint of bond.joints) rows.set(joint.row, [...(rows.get(joint.row) ?? []), joint.uUm]);
      const own = bond.kind === "half" ? pitch / 2 : pitch / 3;
      const least = Math.min(job.bond.stagger * 1000, own) - 2;
      for (const joint of bond.joints) {
        const left = bond.pieces[joint.left]!;
        const right = bond.pieces[joint.right]!;
        expect(right.u0Um - left.u1Um).toBe(job.gaps.end * 1000);
        const v = (left.v0Um + left.v1Um) / 2;
        const off = (joint.uUm - bond.phaseUm - shiftOf(bond.kind, joint.row, pitch)) / pitch;
        if (Math.abs(off - Math.round(off)) * pitch > 2) {
          expect(named("bond", joint.row, joint.uUm, v), `seed ${seed}`).toBe(true);
        }
        if (bond.kind === "stack") continue;
        const near = (rows.get(joint.row - 1) ?? []).some((u) => Math.abs(u - joint.uUm) < least);
        if (near) expect(named("stagger", joint.row, joint.uUm, v), `seed ${seed}`).toBe(true);
      }
      for (const span of setout.spans) {
        if (span.u1Um - span.u0Um > longest || span.mustJoint.length > 0) continue;
        const inside = bond.joints.filter((j) => setout.spans[bond.pieces[j.left]!.span] === span);
        expect(inside).toEqual([]);
      }
    }
  });
});
