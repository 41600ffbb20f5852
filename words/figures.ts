/** How figures are written in a language. Deterministic: no Intl, no locale of the machine. */
export interface Figures {
  /** Whole millimetres, thin space for thousands. */
  mm(mm: number): string;
  /** One decimal: levels, gaps. */
  mm1(mm: number): string;
  /** Square metres with one decimal, from mm2. */
  m2(mm2: number): string;
  number(value: number, decimals: number): string;
  percent(value: number): string;
  money(minor: number, currency: string): string;
}

/** The signs a language writes figures with. */
export interface Signs {
  decimal: "." | ",";
  /** Between groups of three digits, and before a unit or %. */
  thin: "\u2009";
}

/**
 * Writes figures the same way on every machine: no Intl, no locale. `toFixed` is exact decimal arithmetic by
 * specification (halves away from zero). Minus is U+2212; a figure that rounds to nothing has no sign.
 */
export function figures(signs: Signs): Figures {
  const number = (value: number, decimals: number): string => write(value, decimals, signs);
  return {
    mm: (mm) => number(mm, 0),
    mm1: (mm) => number(mm, 1),
    m2: (mm2) => number(mm2 / 1_000_000, 1),
    number,
    percent: (value) => `${number(value, 1)}${signs.thin}%`,
    money: (minor, currency) => {
      const exponent = minorDigits(currency);
      return `${number(Math.round(minor) / TENS[exponent]!, exponent)}${signs.thin}${currency}`;
    },
  };
}

/** Decimal places of a currency's minor unit; 2 where the table has no other (ISO 4217; list from memory). */
export function minorDigits(currency: string): number {
  if (NO_MINOR.includes(currency)) return 0;
  if (THREE_DIGITS.includes(currency)) return 3;
  return 2;
}

const TENS = [1, 10, 100, 1000] as const;
const NO_MINOR = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF".split(" ");
const THREE_DIGITS = "BHD IQD JOD KWD LYD OMR TND".split(" ");

function write(value: number, decimals: number, signs: Signs): string {
  if (!Number.isFinite(value)) return "–";
  const fixed = (value < 0 ? -value : value).toFixed(decimals);
  const [whole, part] = fixed.split(".") as [string, string | undefined];
  const nothing = !/[1-9]/.test(fixed);
  const sign = value < 0 && !nothing ? "\u2212" : "";
  return sign + grouped(whole, signs.thin) + (part === undefined ? "" : signs.decimal + part);
}

/** Groups of three from the right; four digits stand together with their space too, so that columns align. */
function grouped(digits: string, thin: string): string {
  let out = "";
  for (let i = 0; i < digits.length; i++) {
    if (i > 0 && (digits.length - i) % 3 === 0) out += thin;
    out += digits[i];
  }
  return out;
}
