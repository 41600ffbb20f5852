/**
 * Reads a typed length. Units: what the pad is set to counts where the text names none (mm, cm, m, ' and ").
 * Never guesses: a text that can be read in two ways is answered with both readings, a text that makes no sense with why.
 */
export type LengthUnit = "mm" | "cm" | "m" | "ft";
export type LengthWhy = "empty" | "unclear" | "ambiguous" | "mark" | "fraction" | "inches" | "tooLong";
export type ReadLength =
  | { ok: true; mm: number; as: Understood }
  /** `readings`: what it could mean, mm; only with `ambiguous` and `mark`. */
  | { ok: false; why: LengthWhy; readings: number[] };
export type Understood =
  | { kind: "metric"; value: number; unit: "mm" | "cm" | "m" }
  | { kind: "imperial"; minus: boolean; feet: number; inches: number; part: readonly [number, number] | null };

const MM_PER: Record<"mm" | "cm" | "m", number> = { mm: 1, cm: 10, m: 1000 };
/** Exact by definition of the inch (1959). */
const MM_PER_INCH = 25.4;
const LONGEST_MM = 1_000_000;
const DENOMINATORS = [2, 4, 8, 16, 32, 64];

export function readLength(text: string, unit: LengthUnit): ReadLength {
  const tidy = text
    .replace(/[\u00a0\u2009\u202f\s]+/g, " ")
    .replace(/\u2212/g, "-")
    .replace(/[\u2032\u2019]/g, "'")
    .replace(/[\u2033\u201d]|''/g, '"')
    .trim();
  if (tidy === "" || tidy === "-") return no("empty");
  if (tidy.length > 40) return no("unclear");
  const minus = tidy.startsWith("-");
  const rest = tidy.replace(/^-\s*/, "").toLowerCase();
  const named = /^(.*?)\s*(mm|cm|m)$/.exec(rest);
  if (named) return metric(named[1]!, named[2] as "mm" | "cm" | "m", minus);
  const feet = /['"/]|ft|in/.test(rest);
  return feet || unit === "ft" ? imperial(rest, minus) : metric(rest, unit as "mm" | "cm" | "m", minus);
}

function metric(text: string, unit: "mm" | "cm" | "m", minus: boolean): ReadLength {
  const values = readNumber(text);
  if (values.length === 0) return no("unclear");
  const sign = minus ? -1 : 1;
  const inMm = values.map((value) => tidyMm(sign * value * MM_PER[unit]));
  // a reading nobody can tape is none: 1.234 m is not 1234 m
  const likely = inMm.filter((mm) => Math.abs(mm) <= LONGEST_MM);
  if (likely.length === 0) return no("tooLong");
  if (likely.length > 1) return { ok: false, why: "ambiguous", readings: likely };
  const which = inMm.indexOf(likely[0]!);
  return { ok: true, mm: likely[0]!, as: { kind: "metric", value: sign * values[which]!, unit } };
}

/** What a figure with points, commas or spaces can mean; none, one or two values. */
export function readNumber(text: string): number[] {
  const plain = /^(\d{1,9})$/.exec(text);
  if (plain) return [Number(text)];
  if (/^\d{1,3}( \d{3})+([.,]\d+)?$/.test(text)) return [Number(text.replace(/ /g, "").replace(",", "."))];
  const both = /^(\d{1,3})(?:([.,])\d{3})+(?!\2)[.,]\d+$/.exec(text);
  if (both) {
    const cut = Math.max(text.lastIndexOf("."), text.lastIndexOf(","));
    return [Number(`${text.slice(0, cut).replace(/[.,]/g, "")}.${text.slice(cut + 1)}`)];
  }
  if (/^\d{1,3}([.,])\d{3}(\1\d{3})+$/.test(text)) return [Number(text.replace(/[.,]/g, ""))];
  const one = /^(\d*)[.,](\d*)$/.exec(text);
  if (!one || (one[1] === "" && one[2] === "")) return [];
  const decimal = Number(`${one[1] || "0"}.${one[2] || "0"}`);
  const grouped = /^[1-9]\d{0,2}$/.test(one[1]!) && one[2]!.length === 3;
  return grouped ? [decimal, Number(one[1]! + one[2]!)] : [decimal];
}

function imperial(text: string, minus: boolean): ReadLength {
  const shape = /^(?:(\d+(?:[.,]\d+)?)\s*(?:'|ft)\s*)?(?:-?\s*(.+?)\s*(?:("|in)\s*)?)?$/.exec(text);
  if (!shape) return no("unclear");
  const [, feetText, inchText, inchMark] = shape;
  const inches = inchText === undefined ? { value: 0, part: null } : readInches(inchText);
  if (inches === null) return no("unclear");
  if (inches === "fraction") return no("fraction");
  if (feetText === undefined && inchMark === undefined) return bare(inchText ?? "", inches, minus);
  const feet = feetText === undefined ? 0 : Number(feetText.replace(",", "."));
  if (feet % 1 !== 0 && inchText !== undefined) return no("unclear");
  if (feetText !== undefined && total(inches) >= 12) return no("inches");
  return said(feet, inches, minus);
}

/** A figure without ' or " may be feet or inches; a fraction alone is inches on every tape. */
function bare(text: string, inches: Inches, minus: boolean): ReadLength {
  if (/^\d+\/\d+$/.test(text)) return said(0, inches, minus);
  if (/\d \d/.test(text) && inches.part === null) return no("unclear");
  const sign = minus ? -1 : 1;
  const one = total(inches) * MM_PER_INCH * sign;
  return { ok: false, why: "mark", readings: [tidyMm(one * 12), tidyMm(one)] };
}

interface Inches {
  value: number;
  part: readonly [number, number] | null;
}
function readInches(text: string): Inches | null | "fraction" {
  const shape = /^(?:(\d+(?:[.,]\d+)?)(?:\s+|$))?(?:(\d+)\s*\/\s*(\d+))?$/.exec(text);
  if (!shape || (shape[1] === undefined && shape[2] === undefined)) return null;
  const value = Number((shape[1] ?? "0").replace(",", "."));
  if (shape[2] === undefined) return { value, part: null };
  const part = [Number(shape[2]), Number(shape[3])] as const;
  if (value % 1 !== 0 || part[0] < 1 || part[0] >= part[1] || !DENOMINATORS.includes(part[1])) return "fraction";
  return { value, part };
}

function total({ value, part }: Inches): number {
  return value + (part ? part[0] / part[1] : 0);
}

function said(feet: number, inches: Inches, minus: boolean): ReadLength {
  const mm = tidyMm((feet * 12 + total(inches)) * MM_PER_INCH * (minus ? -1 : 1));
  if (Math.abs(mm) > LONGEST_MM) return no("tooLong");
  return { ok: true, mm, as: { kind: "imperial", minus, feet, inches: inches.value, part: inches.part } };
}

function no(why: LengthWhy): ReadLength {
  return { ok: false, why, readings: [] };
}

/** Whole micrometres: what no tape shows is not kept. */
function tidyMm(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}

/** A length as feet, inches and sixteenths, the nearest; halves away from zero. */
export function toFeet(mm: number): Understood & { kind: "imperial" } {
  const sixteenths = Math.round(((mm < 0 ? -mm : mm) / MM_PER_INCH) * 16);
  const feet = Math.floor(sixteenths / 192);
  const inches = Math.floor((sixteenths - feet * 192) / 16);
  let [over, under] = [sixteenths % 16, 16];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  return { kind: "imperial", minus: mm < 0 && sixteenths > 0, feet, inches, part: over === 0 ? null : [over, under] };
}
