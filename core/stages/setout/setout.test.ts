import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { randomJob } from "../../../fixtures/random.ts";
import { jobWith, NO_SURFACE, siteOf } from "../../../fixtures/site.ts";
import { turnJob } from "../../../fixtures/turn.ts";
import { toSite } from "../../geometry/frame.ts";
import { overlapArea } from "../../geometry/region.ts";
import { boxOf, rectangle, regionArea } from "../../geometry/ring.ts";
import type { SetoutRecord } from "./record.ts";
import { setOut } from "./setout.ts";

type Raw = Record<string, unknown>;
const planned = (raw: Raw): SetoutRecord | null => {
  const site = siteOf(raw);
  return site && setOut(site.job, site.survey, NO_SURFACE);
};

describe("field and spans", () => {
  it("make up the field in the rows' strips, with what is left out and named: 200 random jobs", () => {
    let judged = 0;
    for (let seed = 0; seed < 200; seed++) {
      const setout = planned(randomJob(seed) as Raw);
      if (setout === null || setout.rows.length === 0) continue;
      judged++;
      const rings = setout.field.flatMap((r) => [r.outer, ...r.holes]);
      const boxes = setout.field.map((r) => boxOf(r.outer));
      const u0 = Math.min(...boxes.map((b) => b.u0)) - 1e6;
      const u1 = Math.max(...boxes.map((b) => b.u1)) + 1e6;
      const strips = setout.rows.map((row) => rectangle(u0, row.v0Um, u1, row.v1Um));
      // Second opinion: the general clipper's area of field and strips together.
      const opinion = overlapArea(rings, strips);
      let area = 0;
      for (const span of setout.spans) area += regionArea(span.region);
      const named = new Map<string, number>();
      for (const finding of setout.findings) {
        const data = finding.data as { areaMm2?: number };
        if (data.areaMm2 !== undefined) named.set(JSON.stringify(data), data.areaMm2 * 1e6);
      }
      for (const left of named.values()) area += left;
      // A gap's tolerance of 0.25 mm along the edges of a row, and 50 um beside what is left out.
      expect(Math.abs(opinion - area), `seed ${seed}`).toBeLessThan(2e9 + opinion * 2e-4);
    }
    expect(judged).toBeGreaterThan(150);
  });

  it("lie in their strip, one board wide at most, least u at 0 and the start line at 0", () => {
    for (let seed = 300; seed < 400; seed++) {
      const setout = planned(randomJob(seed) as Raw);
      if (setout === null || setout.rows.length === 0) continue;
      expect(Math.min(...setout.field.map((r) => boxOf(r.outer).u0))).toBe(0);
      expect(Math.min(...setout.rows[0]!.spans.map((i) => setout.spans[i]!.v0Um))).toBe(0);
      setout.spans.forEach((span) => {
        const row = setout.rows[span.row]!;
        const box = boxOf(span.region.outer);
        expect([box.u0, box.v0, box.u1, box.v1]).toEqual([span.u0Um, span.v0Um, span.u1Um, span.v1Um]);
        expect(box.v0 >= row.v0Um && box.v1 <= row.v1Um).toBe(true);
      });
    }
  });

  it("turn with the job, exactly by quarter turns", () => {
    for (let seed = 0; seed < 80; seed++) {
      const raw = randomJob(seed) as Raw;
      const here = planned(raw);
      const there = planned(turnJob(raw, 90));
      if (here === null || there === null) continue;
      expect(there.spans.length, `seed ${seed}`).toBe(here.spans.length);
      here.spans.forEach((span, i) => {
        span.region.outer.forEach(([u, v], k) => {
          const [x, y] = toSite(here.frame, u, v);
          const [tu, tv] = there.spans[i]!.region.outer[k]!;
          const [tx, ty] = toSite(there.frame, tu, tv);
          // Angles with decimals gain a last bit when 90 is added: at most the rounding of one micrometre.
          expect(Math.abs(tx + y)).toBeLessThan(0.0021);
          expect(Math.abs(ty - x)).toBeLessThan(0.0021);
        });
      });
    }
  });

  it("keep off what stands: no span is nearer a cut-out than its gap, but for the tolerance", () => {
    for (let seed = 0; seed < 120; seed++) {
      const setout = planned(randomJob(seed) as Raw);
      if (setout === null) continue;
      for (const cutout of setout.site.cutouts) {
        const near = setout.spans.flatMap((s) => [s.region.outer, ...s.region.holes]);
        expect(overlapArea(near, [cutout.ring])).toBeLessThan(3e8);
      }
    }
  });
});

describe("odd corners of the trade", () => {
  const fixture = (name: string): SetoutRecord =>
    planned(
      JSON.parse(readFileSync(new URL(`../../../fixtures/jobs/${name}.job.json`, import.meta.url), "utf8")) as Raw,
    )!;

  it("a downpipe 30 mm off a corner: the slivers between pipe and walls are left out and named", () => {
    const setout = fixture("downpipe-corner");
    expect(setout.findings.length).toBeGreaterThan(0);
    for (const finding of setout.findings) expect(finding).toMatchObject({ rule: "cover", level: "warn" });
  });

  it("a niche 1190 x 1630, a pool coping of radius 3 m, a U with arms 9 m apart: all have a set-out", () => {
    expect(fixture("niche").spans.length).toBe(11);
    expect(fixture("pool-coping").spans.some((s) => !s.plain)).toBe(true);
    const u = fixture("u-shape");
    const arms = u.rows.filter((row) => row.spans.length === 2);
    expect(arms.length).toBeGreaterThan(5);
  });

  const post = (y: number, height: string, width = 4000) =>
    jobWith(
      [
        [0, 0],
        [width, 0],
        [width, 1500],
        [0, 1500],
      ],
      {
        bond: { firstRow: 145 },
        gaps: { edge: 0 },
        site: {
          cutouts: [
            {
              name: "post",
              ring: [
                [1900, y],
                [2000, y],
                [2000, y + 40],
                [1900, y + 40],
              ],
              gap: 5,
              height,
            },
          ],
        },
      },
    );

  it("a web of 35 mm beside a post must have a joint; a thick one need not", () => {
    const thin = planned(post(40, "flush"))!;
    const span = thin.spans[0]!;
    expect(span.mustJoint).toEqual([{ from: 1_895_000, to: 2_005_000, why: "web", name: "post" }]);
    const thick = planned(post(55, "flush"))!;
    expect(thick.spans[0]!.mustJoint.map((m) => m.why)).toEqual(["web"]);
    const middle = planned(
      jobWith(
        [
          [0, 0],
          [4000, 0],
          [4000, 1500],
          [0, 1500],
        ],
        {
          bond: { firstRow: 145, minRip: 40 },
          gaps: { edge: 0 },
          site: {
            cutouts: [
              {
                name: "lid",
                ring: [
                  [1900, 55],
                  [2000, 55],
                  [2000, 90],
                  [1900, 90],
                ],
                gap: 5,
                height: "flush",
              },
            ],
          },
        },
      ),
    )!;
    expect(middle.spans[0]!.mustJoint).toEqual([]);
    expect(middle.spans[0]!.region.holes.length).toBe(1);
  });

  it("a tall post inside a board must have a joint, a flush lid may be enclosed", () => {
    const outline = [
      [0, 0],
      [4000, 0],
      [4000, 1500],
      [0, 1500],
    ];
    const at = (height: string) =>
      planned(
        jobWith(outline, {
          bond: { firstRow: 145, minRip: 40 },
          gaps: { edge: 0 },
          site: {
            cutouts: [
              {
                name: "post",
                ring: [
                  [1900, 60],
                  [1980, 60],
                  [1980, 85],
                  [1900, 85],
                ],
                gap: 5,
                height,
              },
            ],
          },
        }),
      )!;
    expect(at("tall").spans[0]!.mustJoint.map((m) => m.why)).toEqual(["enclosed"]);
    expect(at("removable").spans[0]!.mustJoint.map((m) => m.why)).toEqual(["enclosed"]);
    expect(at("flush").spans[0]!.mustJoint).toEqual([]);
  });

  it("leaves a web out and names it where no joint can be put", () => {
    const setout = planned(
      jobWith(
        [
          [0, 0],
          [4000, 0],
          [4000, 1500],
          [0, 1500],
        ],
        {
          bond: { firstRow: 145 },
          gaps: { edge: 0 },
          site: {
            cutouts: [
              {
                name: "post",
                ring: [
                  [150, 40],
                  [250, 40],
                  [250, 145],
                  [150, 145],
                ],
                gap: 5,
                height: "tall",
              },
            ],
          },
        },
      ),
    )!;
    expect(setout.findings.map((f) => f.code)).toContain("webLeftOut");
    expect(setout.rows[0]!.spans.length).toBe(2);
  });

  it("blunts a long thin tip and names it along its length", () => {
    // A wall that slants by 1 : 20 across the rows: the last row of each board's width runs out to a point 400 mm long.
    const setout = planned(
      jobWith(
        [
          [0, 0],
          [6000, 0],
          [6000, 1300],
          [0, 1000],
        ],
        { gaps: { edge: 0 } },
      ),
    )!;
    const blunted = setout.findings.filter((f) => f.code === "tipBlunted");
    expect(blunted.length).toBeGreaterThan(0);
    for (const f of blunted) expect((f.data as { widthMm: number }).widthMm).toBeLessThanOrEqual(20);
  });
});

describe("direction", () => {
  const wedge = (bond: Raw) =>
    jobWith(
      [
        [0, 0],
        [5000, 2500],
        [4000, 4500],
        [-1000, 2000],
      ],
      { gaps: { edge: 5 }, bond: { angle: null, ...bond } },
    );

  it("is chosen along a wall when it is not given, with the reason", () => {
    const setout = planned(wedge({}))!;
    const along = ((setout.frame.angleDeg % 90) + 90) % 90;
    expect(along).toBeCloseTo(26.565051, 5);
    expect(setout.reasons[0]!.code).toBe("angleAlongSide");
    expect(setout.spans.every((s) => s.plain)).toBe(true);
  });

  it("is taken as given", () => {
    expect(planned(wedge({ angle: 10 }))!.frame.angleDeg).toBe(10);
  });

  it("lets channels run down the fall where the base has one", () => {
    const site = siteOf(wedge({}))!;
    site.job.board.channels = "along";
    const fallAt = (towards: number) =>
      setOut(site.job, site.survey, {
        surface: { plane: { a: 0, b: 0, c: 0, fall: 2, towards } } as never,
        findings: [],
      }).frame.angleDeg % 180;
    expect(fallAt(26.565)).toBeCloseTo(26.565051, 4);
    expect(fallAt(116.565)).toBeCloseTo(116.565051, 4);
  });
});

describe("rows askew", () => {
  const turned = (deg: number): number[][] => {
    const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
    const corners = [
      [0, 0],
      [4000, 0],
      [4000, 2500],
      [0, 2500],
    ];
    return corners.map(([x, y]) => [x! * c - y! * s, x! * s + y! * c]);
  };
  const codes = (deg: number, bond: object) => {
    const setout = planned(jobWith(turned(deg), { bond }))!;
    return setout.findings.filter((one) => one.code === "rowsAskew");
  };

  it("are named where they follow no long side, with the direction of the one they come nearest to", () => {
    expect(codes(27, {})).toMatchObject([
      { level: "note", found: 0, limit: 27, data: { angleDeg: 0, sideDeg: 27, offDeg: 27, side: 0 } },
    ]);
    expect(codes(70, {})).toMatchObject([{ data: { offDeg: 20, sideDeg: 70 } }]);
  });

  it("are no matter within a degree of a side, along or across, or where the direction is chosen", () => {
    for (const [deg, bond] of [
      [0, {}],
      [0.9, {}],
      [90.5, {}],
      [179.5, {}],
      [27, { angle: 27 }],
      [27, { angle: 117 }],
      [27, { angle: null }],
    ] as const)
      expect(codes(deg, bond)).toEqual([]);
  });
});

describe("where hardly anything is left", () => {
  it("keeps the field and its area without a row, and names all of it within reach", () => {
    for (const angle of [0, 90]) {
      const outline = [
        [0, 0],
        [9000, 0],
        [9000, 30],
        [0, 30],
      ];
      const setout = planned(jobWith(outline, { bond: { angle } }))!;
      expect(setout.rows).toEqual([]);
      expect(setout.fieldAreaUm2).toBeCloseTo(8980 * 10 * 1e6, -3);
      expect(setout.field.length).toBe(1);
      const named = setout.findings.filter((finding) => finding.rule === "cover").map((finding) => finding.at!);
      for (let x = 10; x <= 8990; x += 10)
        expect(
          named.some(([u, v]) => (u - x) * (u - x) + (v - 15) * (v - 15) < 390 * 390),
          `${x}`,
        ).toBe(true);
      expect(named.length).toBeLessThan(9000 / 400);
    }
  });

  it("parts a row under a corner of a cut-out by a whole needle, so that no ends face each other over a slit", () => {
    for (const seed of [531, 742]) {
      const setout = planned(randomJob(seed) as Raw)!;
      for (const row of setout.rows) {
        const spans = row.spans.map((i) => setout.spans[i]!);
        for (const left of spans)
          for (const right of spans)
            if (right.u0Um >= left.u1Um && right.u0Um - left.u1Um < 9000)
              expect(facing(left, left.u1Um) && facing(right, right.u0Um), `seed ${seed} row ${row.row}`).toBe(false);
      }
    }
  });
});

/** Whether a span ends square to the row at this level of u. */
function facing(span: SetoutRecord["spans"][number], u: number): boolean {
  const ring = span.region.outer;
  return ring.some((p, i) => p[0] === u && ring[(i + 1) % ring.length]![0] === u);
}
