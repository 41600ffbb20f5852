import { describe, expect, it } from "vitest";
import { jobWith, NO_SURFACE, siteOf } from "../../../fixtures/site.ts";
import { setOut } from "./setout.ts";

type Raw = Record<string, unknown>;

/** A room whose field is `height` mm high: gaps of 10 all round. */
function room(height: number, parts: Raw = {}, sides?: string[]) {
  const outline = [
    [0, 0],
    [4020, 0],
    [4020, height + 20],
    [0, height + 20],
  ];
  const site = {
    ...(sides ? { sides: sides.map((kind) => ({ kind, gap: 10 })) } : {}),
    ...((parts.site as Raw) ?? {}),
  };
  const { job, survey } = siteOf(jobWith(outline, { gaps: { edge: 10 }, ...parts, site }))!;
  return setOut(job, survey, NO_SURFACE);
}
const widths = (setout: ReturnType<typeof setOut>) => setout.spans.map((s) => (s.v1Um - s.v0Um) / 1000);

describe("start line and row gap", () => {
  it("fits whole boards where they fit, and within the tolerance of a gap on either side", () => {
    const exact = room(145 * 5 + 5 * 4);
    expect(widths(exact)).toEqual([145, 145, 145, 145, 145]);
    expect(exact.reasons[1]!.code).toBe("rowsFit");
    // 2 mm too much: the gap at the edge is that much larger. 0.25 mm too little: that much smaller.
    expect(widths(room(745 + 2))).toEqual([145, 145, 145, 145, 145]);
    expect(widths(room(745 - 0.25))).toEqual([145, 145, 145, 145, 145]);
    expect(Math.min(...widths(room(745 - 0.5)))).toBeLessThan(145);
  });

  it("spreads the gaps within their range before it rips, in round figures where they do", () => {
    // 1.6 mm over at the nominal gap: the edge gap takes that, nothing is spread.
    const within = room(5 * 145 + 4 * 5.4, { gaps: { edge: 10, side: 5, sideRange: [5, 6] } });
    expect([within.sideGapUm, within.reasons[1]!.code]).toEqual([5000, "rowsFit"]);
    // 3.2 mm over: half a millimetre more a gap leaves 1.2, well within the edge gap's 2.
    const wide = room(5 * 145 + 4 * 5.8, { gaps: { edge: 10, side: 5, sideRange: [5, 6] } });
    expect(wide.sideGapUm).toBe(5500);
    expect(wide.reasons[1]!.code).toBe("rowsSpread");
    expect(widths(wide)).toEqual([145, 145, 145, 145, 145]);
  });

  it("lays a full board at the door or the open side and hides the rip", () => {
    const doorBelow = room(700, {}, ["door", "wall", "wall", "wall"]);
    expect(widths(doorBelow)[0]).toBe(145);
    expect(widths(doorBelow).at(-1)).toBe(700 - 4 * 150);
    const openAbove = room(700, {}, ["wall", "wall", "open", "wall"]);
    expect(widths(openAbove).at(-1)).toBe(145);
    expect(widths(openAbove)[0]).toBe(100);
    expect(openAbove.reasons[1]!.code).toBe("rowsFullLast");
    // The start line is the lower edge of row 0's pieces; its strip reaches below by what is ripped off.
    expect([openAbove.rows[0]!.v0Um, openAbove.rows[0]!.v1Um]).toEqual([-45_000, 100_000]);
  });

  it("shares a rip that would be narrower than minRip on one side", () => {
    const shared = room(4 * 150 + 30);
    const all = widths(shared);
    expect(shared.reasons[1]!.code).toBe("rowsShared");
    expect(all[0]).toBeGreaterThanOrEqual(50);
    expect(all.at(-1)).toBeGreaterThanOrEqual(50);
    expect(shared.findings).toEqual([]);
  });

  it("takes the first row's width as given", () => {
    const given = room(700, { bond: { firstRow: 80 } });
    expect(widths(given)[0]).toBe(80);
    expect(given.reasons[1]!.code).toBe("rowsGiven");
  });

  it("keeps every row one board wide, one gap apart, none left out", () => {
    for (const height of [333, 480, 777, 1234, 2001]) {
      const setout = room(height);
      setout.rows.forEach((row, k) => {
        expect(row.row).toBe(k);
        expect(row.v1Um - row.v0Um).toBe(145_000);
        if (k > 0) expect(row.v0Um - setout.rows[k - 1]!.v1Um).toBe(setout.sideGapUm);
      });
    }
  });

  it("says openly where nothing but a needle or a narrow strip can be had", () => {
    const low = room(30);
    expect(low.spans.length).toBe(1);
    const none = room(15);
    expect(none.spans.length).toBe(0);
    expect(none.findings[0]).toMatchObject({ rule: "cover", level: "stop" });
  });
});
