import { toFeet, type Understood } from "../../../core/measure/length.ts";
import type { AppWords } from "../../../words/app.ts";
import type { Units } from "../road/step.ts";

/** A length in the fitter's measures: whole millimetres where it is whole, else one decimal; or feet, inches, sixteenths. */
export function sayLength(words: AppWords, units: Units, mm: number): string {
  return units === "imperial" ? sayFeet(words, toFeet(mm)) : sayMm(words, mm);
}

export function sayMm(words: AppWords, mm: number): string {
  return words.pad.mm(Math.abs(mm - Math.round(mm)) < 0.05 ? words.write.mm(mm) : words.write.mm1(mm));
}

export function sayFeet(words: AppWords, { minus, feet, inches, part }: Understood & { kind: "imperial" }): string {
  const number = (value: number) => words.write.number(value, decimals(value));
  const said = words.pad.imperial(number(feet), number(inches), part && `${part[0]}/${part[1]}`);
  return minus ? `\u2212${said}` : said;
}

/** As many decimals as were typed, three at most. */
export function decimals(value: number): number {
  for (let count = 0; count < 3; count++) {
    const scaled = value * [1, 10, 100][count]!;
    if (Math.abs(scaled - Math.round(scaled)) < 1e-6) return count;
  }
  return 3;
}
