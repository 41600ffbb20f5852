import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sampleJob, samplePlan } from "../../../fixtures/samplePlan.ts";
import type { Job } from "../../job/job.ts";
import type { PlanRecord } from "../../plan/record.ts";
import { spareOf } from "./spares.ts";
import { lineMinor, takeOff } from "./takeoff.ts";
import { barsFor } from "./trims.ts";

function taken(job: Job, plan: PlanRecord) {
  return takeOff(job, plan.survey, plan.preparation, plan.setout, plan.bond, plan.fixing, plan.cutting);
}

describe("take-off", () => {
  it("equals what is drawn, plus spares, in whole packs, less than a pack over; the total is the sum of its lines", () => {
    fc.assert(
      fc.property(
        fc.record({
          rows: fc.integer({ min: 1, max: 20 }),
          pack: fc.integer({ min: 1, max: 7 }),
          price: fc.integer({ min: 0, max: 99_999 }),
          boards: fc.double({ min: 0, max: 0.3, noNaN: true }),
          slanting: fc.double({ min: 0, max: 0.3, noNaN: true }),
          atLeast: fc.integer({ min: 0, max: 9 }),
          clips: fc.double({ min: 0, max: 0.3, noNaN: true }),
          packs: fc.dictionary(
            fc.constantFrom("clip-seam", "clip-start", "fixing", "trim-2400"),
            fc.integer({ min: 1, max: 250 }),
          ),
          holes: fc.integer({ min: 1, max: 3 }),
        }),
        (r) => {
          const base = sampleJob();
          const job: Job = {
            ...base,
            packs: r.packs,
            board: { ...base.board, lengths: [{ length: 1500, price: r.price, pack: r.pack, stock: null }] },
            spares: {
              ...base.spares,
              boards: r.boards,
              boardsSlanting: r.slanting,
              boardsAtLeast: r.atLeast,
              clips: r.clips,
            },
            clips: {
              ...base.clips,
              fixing: { ...base.clips.fixing, holes: Array.from({ length: r.holes }, (_, i) => [i * 20, 0] as const) },
            },
          };
          const plan = samplePlan(job, r.rows);
          const out = taken(job, plan);
          let sum = 0;
          for (const item of out.items) {
            expect(Number.isInteger(item.buy)).toBe(true);
            expect(item.buy % item.pack).toBe(0);
            expect(item.buy - item.need - item.spare).toBeGreaterThanOrEqual(0);
            expect(item.buy - item.need - item.spare).toBeLessThan(item.pack);
            sum += item.price === null ? 0 : item.buy * item.price;
          }
          expect(out.totalMinor).toBe(sum);
          const need = (start: string) =>
            out.items.filter((i) => i.item.startsWith(start)).reduce((n, i) => n + i.need, 0);
          expect(need("board-")).toBe(plan.cutting.boards.length);
          expect(need("clip-")).toBe(plan.fixing.clips.length);
          expect(need("fixing")).toBe(plan.fixing.clips.length * r.holes);
          // One slanting piece a row, each from a board of its own.
          const share = (plan.cutting.boards.length - r.rows) * r.boards + r.rows * r.slanting;
          const spare = out.items.find((i) => i.item === "board-1500")!.spare;
          expect(spare).toBe(Math.max(r.atLeast, Math.ceil(share - 1e-9)));
          expect(new Set(out.items.map((i) => i.item)).size).toBe(out.items.length);
        },
      ),
      { seed: 3, numRuns: 60 },
    );
  });

  it("rounds shares up, and not for the sake of a last binary digit", () => {
    expect([spareOf(100, 0.07), spareOf(101, 0.07), spareOf(0, 0.5), spareOf(40, 0.05), spareOf(41, 0.05)]).toEqual([
      7, 8, 0, 2, 3,
    ]);
  });

  it("puts the spares on the longest length used, and says when the stock at hand has no more", () => {
    const base = sampleJob();
    const lengths = [
      { length: 1500, price: 2000, pack: 4, stock: null },
      { length: 2000, price: 2700, pack: 2, stock: 5 },
    ];
    const job: Job = { ...base, board: { ...base.board, lengths } };
    const plan = samplePlan(job, 3);
    plan.cutting.boards.slice(0, 4).forEach((board) => {
      board.lengthUm = 2_000_000;
    });
    const count = plan.cutting.boards.length;
    const out = taken(job, plan);
    expect(out.items.find((i) => i.item === "board-2000")).toMatchObject({ need: 4, spare: 1, pack: 1, buy: 5 });
    expect(out.items.find((i) => i.item === "board-1500")).toMatchObject({ need: count - 4, spare: 1, pack: 4 });
    lengths[0]!.stock = (count - 4) as never;
    expect(taken(job, plan).findings.find((f) => f.code === "spareStock")).toMatchObject({
      level: "warn",
      found: 1,
      limit: 2,
    });
  });

  it("counts every board and buys all but those in the fitter's yard; with more there than it takes, none", () => {
    const base = sampleJob();
    const with_ = (owned: number | undefined, stock: number | null = null) => {
      const lengths = [{ length: 1500, price: 2000, pack: 4, stock, ...(owned === undefined ? {} : { owned }) }];
      const job: Job = { ...base, board: { ...base.board, lengths } };
      return taken(job, samplePlan(job, 3)).items.find((i) => i.item === "board-1500")!;
    };
    const none = with_(undefined);
    const all = none.need + none.spare;
    expect(none.owned).toBeUndefined();
    expect(with_(3)).toMatchObject({ need: none.need, spare: none.spare, owned: 3, buy: Math.ceil((all - 3) / 4) * 4 });
    expect(with_(3, 1000)).toMatchObject({ owned: 3, pack: 1, buy: all - 3 });
    expect(with_(1000)).toMatchObject({ need: none.need, owned: all, buy: 0 });
    expect(with_(1000, all + 1)).toMatchObject({ owned: all, buy: 0 });
  });

  it("names what has no price and takes a family's price for its sizes", () => {
    const job = { ...sampleJob(), prices: { fixing: 30 } };
    const out = taken(job, samplePlan(job));
    expect(out.items.find((i) => i.item === "fixing-35")?.price).toBe(30);
    expect(out.unpriced).toContain("clip-seam");
    expect(out.findings.some((f) => f.code === "unpriced")).toBe(true);
    expect(out.items.filter((i) => i.price === null).every((i) => lineMinor(i) === 0)).toBe(true);
  });

  it("lists fixings by length where the filling differs, rather too long than short", () => {
    const job = sampleJob();
    const plan = samplePlan(job);
    const stake = (x: number, changeMm: number) =>
      [0, 1000, 2000].map((y) => ({ at: [x, y] as const, nowMm: 0, thenMm: changeMm, changeMm }));
    plan.preparation = {
      chosen: 0,
      findings: [],
      options: [
        {
          option: "plane",
          grindMm3: 0,
          fillMm3: 1e7,
          massKg: 18,
          massPerM2Kg: 9,
          costMinor: 3500,
          planes: [],
          why: "",
          feasible: true,
          materials: [{ name: "shaped mortar", litres: 10.2, bags: 1, costMinor: 3570 }],
          stakes: [...stake(0, -2), ...stake(2300, 12), ...stake(4600, 21)],
        },
      ],
    };
    const out = taken(job, plan);
    const fixings = out.items.filter((i) => i.item.startsWith("fixing-"));
    expect(fixings.map((i) => i.item)).toEqual(["fixing-35", "fixing-50", "fixing-60"]);
    expect(fixings.reduce((n, i) => n + i.need, 0)).toBe(plan.fixing.clips.length);
    for (const i of fixings) expect(i.spare).toBe(Math.ceil(i.need * 0.1 - 1e-9));
    expect(out.items.find((i) => i.item === "fill-1")).toMatchObject({ unit: "bag", need: 1, price: 4375 });
    expect(out.findings.some((f) => f.code === "fixingLengths")).toBe(true);
  });
});

describe("trims", () => {
  it("follow every open side, mitred where two meet, butt and short of the neighbour's gap elsewhere", () => {
    const job = sampleJob();
    const plan = samplePlan(job);
    const { trims } = taken(job, plan);
    expect(trims.map((t) => t.side)).toEqual([0, 1]);
    const [front, right] = trims as [(typeof trims)[0], (typeof trims)[0]];
    const length = (t: typeof front) => t.parts.reduce((n, p) => n + p.length, 0);
    expect(length(front)).toBeCloseTo(4600 - 10, 3);
    expect(length(right)).toBeCloseTo(Math.sqrt(100 * 100 + 2000 * 2000) - 10, 2);
    const join = front.parts[front.parts.length - 1]!.mitres[1];
    expect(join).toBe(right.parts[0]!.mitres[0]);
    // The inner angle there is 90 - atan(100 / 2000) = 87.14 degrees; each trim is cut at half of it.
    expect(join).toBeCloseTo(90 - 87.1376 / 2, 1);
    expect(front.parts[0]!.mitres[0]).toBe(0);
    for (const t of trims) for (const p of t.parts) expect(p.length).toBeLessThanOrEqual(2400);
    for (const p of [...front.parts, ...right.parts]) {
      expect(Math.hypot(p.to[0] - p.from[0], p.to[1] - p.from[1])).toBeCloseTo(p.length, 2);
    }
  });

  it("round a site open on all sides: parts make up the outline, mitres its inner angles", () => {
    const corner = fc.record({
      radius: fc.integer({ min: 900, max: 9000 }),
      wobble: fc.integer({ min: -15, max: 15 }),
    });
    fc.assert(
      fc.property(fc.array(corner, { minLength: 3, maxLength: 9 }), (corners) => {
        const job = sampleJob();
        const plan = samplePlan(job, 2);
        const n = corners.length;
        plan.survey.outline = corners.map(({ radius, wobble }, i) => {
          const turn = ((i * 360) / n + wobble) * (Math.PI / 180);
          return [Math.round(radius * Math.cos(turn)) + 0, Math.round(radius * Math.sin(turn)) + 0, 0];
        });
        plan.survey.sides = corners.map((_, source) => ({ ...plan.survey.sides[0]!, kind: "open", source }));
        const { trims, items } = taken(job, plan);
        let perimeter = 0;
        let inner = 0;
        for (const [i, trim] of trims.entries()) {
          const [x0, y0] = plan.survey.outline[i]!;
          const [x1, y1] = plan.survey.outline[(i + 1) % n]!;
          const length = trim.parts.reduce((sum, part) => sum + part.length, 0);
          expect(Math.abs(length - Math.hypot(x1 - x0, y1 - y0))).toBeLessThan(0.01);
          expect([trim.parts[0]!.from, trim.parts[trim.parts.length - 1]!.to]).toEqual([
            [x0, y0],
            [x1, y1],
          ]);
          for (let k = 1; k < trim.parts.length; k++) expect(trim.parts[k]!.from).toEqual(trim.parts[k - 1]!.to);
          perimeter += length;
          inner += 180 - 2 * trim.parts[0]!.mitres[0];
        }
        expect(trims).toHaveLength(n);
        // Each mitre is rounded to a tenth of a degree.
        expect(Math.abs(inner - (n - 2) * 180)).toBeLessThanOrEqual(0.1 * n + 1e-6);
        const bars = items.find((item) => item.item === "trim-2400")!.need;
        expect(bars * 2400).toBeGreaterThanOrEqual(perimeter - 0.1);
      }),
      { seed: 11, numRuns: 200 },
    );
  });

  it("measure a curved side along its arc and keep the parts on it", () => {
    const job = sampleJob();
    const plan = samplePlan(job);
    // A half circle of radius 2300 hung on the front: bulge 1, swelling away from the field.
    plan.survey.outline = plan.survey.outline.map((v, i) => (i === 0 ? [v[0], v[1], 1] : v));
    const { trims, findings } = taken(job, plan);
    const parts = trims[0]!.parts;
    expect(parts.reduce((n, p) => n + p.length, 0)).toBeCloseTo(Math.PI * 2300 - 10, 2);
    for (const p of parts) expect(Math.hypot(p.from[0] - 2300, p.from[1])).toBeCloseTo(2300, 2);
    for (const p of parts.slice(0, -1)) expect(p.to[1]).toBeLessThan(0);
    expect(findings.some((f) => f.code === "trimCurved")).toBe(true);
  });

  it("come out of stock lengths that hold them with their kerfs", () => {
    expect(barsFor([1200, 1200], 2400, 3)).toBe(2);
    expect(barsFor([1197, 1200], 2400, 3)).toBe(1);
    expect(barsFor([2400, 1000, 700, 694], 2400, 3)).toBe(2);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 2400 }), { maxLength: 40 }), (lengths) => {
        const bars = barsFor(lengths, 2400, 3);
        expect(bars * 2403).toBeGreaterThanOrEqual(lengths.reduce((n, l) => n + l + 3, 0));
        expect(bars).toBeLessThanOrEqual(lengths.length);
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it("ask for a trim where an open side has none", () => {
    const job: Job = { ...sampleJob(), trim: null };
    const out = taken(job, samplePlan(job));
    expect(out.findings.filter((f) => f.code === "trimMissing")).toHaveLength(2);
    expect(out.items.some((i) => i.item.startsWith("trim"))).toBe(false);
  });
});
