import fc from "fast-check";
import { expect, test } from "vitest";
import { type LengthUnit, readLength, toFeet } from "./length.ts";

const mm = (text: string, unit: LengthUnit) => {
  const read = readLength(text, unit);
  return read.ok ? read.mm : read.why;
};

test("metric: the pad's unit counts, a unit named goes before it, both decimal signs", () => {
  expect(mm("5000", "mm")).toBe(5000);
  expect(mm("500", "cm")).toBe(5000);
  expect(mm("5", "m")).toBe(5000);
  expect(mm("5,25", "m")).toBe(5250);
  expect(mm("5.25", "m")).toBe(5250);
  expect(mm("64.3 cm", "mm")).toBe(643);
  expect(mm("−12,5", "mm")).toBe(-12.5);
  expect(mm("1 234,5", "mm")).toBe(1234.5);
  expect(mm("1.234,5", "mm")).toBe(1234.5);
  expect(mm("1,234,567", "mm")).toBe("tooLong");
  expect(mm("1.2345", "m")).toBe(1234.5);
  expect(mm("0.123", "mm")).toBe(0.123);
});

test("a point before three digits is not guessed at, except where the other reading cannot be taped", () => {
  expect(readLength("1.234", "mm")).toEqual({ ok: false, why: "ambiguous", readings: [1.234, 1234] });
  expect(readLength("1,234", "cm")).toEqual({ ok: false, why: "ambiguous", readings: [12.34, 12340] });
  expect(mm("1,234", "m")).toBe(1234);
});

test("feet and inches with fractions; 25.4 mm an inch exactly", () => {
  expect(mm("6' 2 3/8\"", "ft")).toBe(1889.125);
  expect(mm("6 ft 2 3/8 in", "ft")).toBe(1889.125);
  expect(mm("6'2 3/8", "ft")).toBe(1889.125);
  expect(mm('74 3/8"', "ft")).toBe(1889.125);
  expect(mm('74.375"', "mm")).toBe(1889.125);
  expect(mm("6.5'", "ft")).toBe(1981.2);
  expect(mm("3/8", "ft")).toBe(9.525);
  expect(mm("-6'", "ft")).toBe(-1828.8);
  expect(mm("6' 3/4\"", "ft")).toBe(1847.85);
});

test("what makes no sense is said, with why", () => {
  expect(readLength("6", "ft")).toEqual({ ok: false, why: "mark", readings: [1828.8, 152.4] });
  expect(mm("2 3/8", "ft")).toBe("mark");
  expect(mm("6' 2 3/7\"", "ft")).toBe("fraction");
  expect(mm("6' 9/8\"", "ft")).toBe("fraction");
  expect(mm("6' 14\"", "ft")).toBe("inches");
  expect(mm("6.5' 2\"", "ft")).toBe("unclear");
  expect(mm("", "mm")).toBe("empty");
  expect(mm("-", "mm")).toBe("empty");
  for (const text of ["1.2.3", "..", ".", "5..", "12m m", "1e3", "0x10", "abc", "5'5'5", "1 23", "'", '"', "NaN"])
    expect([text, readLength(text, "mm").ok]).toEqual([text, false]);
});

test("never throws, never answers beyond a kilometre; whole millimetres come back", () => {
  const sign = fc.constantFrom(..."0123456789.,-'\"/ mcftin");
  fc.assert(
    fc.property(fc.array(sign, { maxLength: 14 }), fc.constantFrom("mm", "cm", "m", "ft"), (signs, unit) => {
      const read = readLength(signs.join(""), unit as LengthUnit);
      if (read.ok) expect(Math.abs(read.mm)).toBeLessThanOrEqual(1_000_000);
    }),
    { seed: 7, numRuns: 3000 },
  );
  fc.assert(
    fc.property(fc.integer({ min: -999_999, max: 999_999 }), (whole) => mm(String(whole), "mm") === whole),
    { seed: 7 },
  );
});

test("written in sixteenths, a length comes back within half of one", () => {
  expect(toFeet(1889.125)).toEqual({ kind: "imperial", minus: false, feet: 6, inches: 2, part: [3, 8] });
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 999_000 }), (whole) => {
      const { feet, inches, part } = toFeet(whole);
      const text = `${feet}' ${inches}${part ? ` ${part[0]}/${part[1]}` : ""}"`;
      const read = readLength(text, "ft");
      return read.ok && Math.abs(read.mm - whole) <= 25.4 / 32 + 0.001;
    }),
    { seed: 3 },
  );
});
