import { useState } from "preact/hooks";
import { type LengthUnit, type ReadLength, readLength } from "../../../core/measure/length.ts";
import type { AppWords } from "../../../words/app.ts";
import type { App, Units } from "../road/step.ts";
import { Pad, type PadRead } from "./pad.tsx";
import { decimals, sayFeet, sayLength, sayMm } from "./say.ts";

const UNITS: readonly LengthUnit[] = ["mm", "cm", "m", "ft"];
/** The unit last chosen holds for every pad of this sitting. */
let chosen: { units: Units; unit: LengthUnit } | null = null;

export interface LengthPadProps {
  app: App;
  label: string;
  onNext(mm: number): void;
  /** The length before this one, mm. */
  last?: number | null;
  /** True where less than nothing makes sense. */
  minus?: boolean;
  /** True where nothing at all makes sense. */
  zero?: boolean;
}

/** The number pad for lengths: millimetres, centimetres, metres, feet and inches. */
export function LengthPad({ app, label, onNext, last = null, minus = false, zero = false }: LengthPadProps) {
  const { words, units } = app;
  const [text, setText] = useState("");
  const [unit, setUnit] = useState<LengthUnit>(
    chosen?.units === units ? chosen.unit : units === "imperial" ? "ft" : "mm",
  );
  const choose = (next: LengthUnit) => {
    chosen = { units, unit: next };
    setUnit(next);
  };
  const read = padRead(words, readLength(text, unit), minus, zero);
  const take = (mm: number) => {
    setText("");
    onNext(mm);
  };
  const { pad } = words;
  return (
    <Pad
      words={words}
      label={label}
      text={text}
      setText={setText}
      read={read}
      onNext={take}
      last={last === null ? null : { value: last, says: sayLength(words, units, last) }}
      minus={minus}
      extra={
        unit === "ft"
          ? [
              ["\u2032", pad.feet, "\u2032"],
              ["\u2033", pad.inches, "\u2033"],
              ["/", pad.over, "/"],
              [" ", pad.space, "\u2423"],
            ]
          : []
      }
    >
      <fieldset class="pad-units">
        <legend>{pad.units}</legend>
        {UNITS.map((one) => (
          <label key={one}>
            <input type="radio" name="pad-unit" checked={one === unit} onChange={() => choose(one)} />
            <span>{pad.unit[one]}</span>
          </label>
        ))}
      </fieldset>
    </Pad>
  );
}

/** What was understood, as a sentence; a value only where there is one reading and it can be. */
function padRead(words: AppWords, read: ReadLength, minus: boolean, zero: boolean): PadRead {
  const { pad } = words;
  if (!read.ok)
    return {
      value: null,
      says: pad.why(
        read.why,
        read.readings.map((mm) => sayMm(words, mm)),
      ),
    };
  if (!minus && (read.mm < 0 || (!zero && read.mm === 0))) return { value: null, says: pad.noMinus };
  const mm = sayMm(words, read.mm);
  if (read.as.kind === "imperial") return { value: read.mm, says: pad.equals(sayFeet(words, read.as), mm) };
  if (read.as.unit === "mm") return { value: read.mm, says: mm };
  const { value, unit } = read.as;
  return {
    value: read.mm,
    says: pad.equals(`${words.write.number(value, decimals(value))}\u2009${pad.unit[unit]}`, mm),
  };
}
