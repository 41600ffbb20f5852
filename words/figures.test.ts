import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { figures, minorDigits } from "./figures.ts";

const point = figures({ decimal: ".", thin: "\u2009" });
const comma = figures({ decimal: ",", thin: "\u2009" });

describe("figures", () => {
  it("writes millimetres, levels, areas and shares with thin spaces and a true minus", () => {
    expect(point.mm(1234567.4)).toBe("1\u2009234\u2009567");
    expect(point.mm(999.5)).toBe("1\u2009000");
    expect(point.mm1(-3.25)).toBe("\u22123.3");
    expect(comma.mm1(1234.5)).toBe("1\u2009234,5");
    expect(point.m2(12_349_999)).toBe("12.3");
    expect(comma.percent(1.96)).toBe("2,0\u2009%");
  });

  it("never writes a minus before nothing", () => {
    for (const value of [-0, -0.04, -0.0001]) expect(point.number(value, 1)).toBe("0.0");
    expect(point.mm(-0.4)).toBe("0");
  });

  it("writes money in the minor units of its currency", () => {
    expect(point.money(123456, "EUR")).toBe("1\u2009234.56\u2009EUR");
    expect(point.money(123456, "JPY")).toBe("123\u2009456\u2009JPY");
    expect(point.money(123456, "KWD")).toBe("123.456\u2009KWD");
    expect(comma.money(-5, "EUR")).toBe("\u22120,05\u2009EUR");
    expect([minorDigits("EUR"), minorDigits("KRW"), minorDigits("TND")]).toEqual([2, 0, 3]);
  });

  it("can be read back: the figure written is the figure given, rounded", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e9, max: 1e9, noNaN: true }),
        fc.integer({ min: 0, max: 3 }),
        (value, decimals) => {
          const back = Number(
            comma.number(value, decimals).replaceAll("\u2009", "").replace(",", ".").replace("\u2212", "-"),
          );
          const half = [0.5, 0.05, 0.005, 0.0005][decimals]!;
          expect(Math.abs(back - value)).toBeLessThanOrEqual(half * 1.000001);
          expect(Object.is(back, -0)).toBe(false);
        },
      ),
      { seed: 1, numRuns: 500 },
    );
  });
});
