import { useEffect, useState } from "preact/hooks";
import { readLength, readNumber } from "../../../core/measure/length.ts";
import { minorDigits } from "../../../words/figures.ts";
import { sayLength } from "../pad/say.ts";
import type { App } from "../road/step.ts";
import "./figure-field.css";

/** mm: a length; minor: money of the job's currency; a unit's word, or plain. */
export type FigureUnit = "mm" | "minor" | "percent" | "litre" | "kg" | "kgM2" | "plain";
export interface FigureFieldProps {
  app: App;
  label: string;
  /** In the job's own measure: mm, minor units, %, ... Null: nothing is given. */
  value: number | null;
  unit: FigureUnit;
  min?: number;
  max?: number;
  /** What an empty field means, shown in it; left out: a figure must stand there. */
  empty?: string;
  set(value: number | null): void;
  /** The label is read aloud but not shown: the column's head says it. */
  bare?: boolean;
}

/** A figure typed in place: taken on Enter or when the field is left. Both decimal signs; feet and inches where those are used. */
export function FigureField(props: FigureFieldProps) {
  const { app, label, value, unit, min = 0, max = Number.POSITIVE_INFINITY, empty, set, bare } = props;
  const shown = value === null ? "" : said(app, value, unit);
  const [text, setText] = useState(shown);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => {
    setText(shown);
    setTrouble(null);
  }, [shown]);
  const take = () => {
    if (text === shown) return setTrouble(null);
    if (text.trim() === "" && empty !== undefined) return set(null);
    const next = read(app, text, unit);
    if (next === null) return setTrouble(app.words.field.noFigure);
    if (next < min || next > max) return setTrouble(bounds(app, min, max, unit));
    setTrouble(null);
    // What reads the same is the same: a figure shown rounded is not changed by looking at it.
    if (value !== null && said(app, next, unit) === shown) setText(shown);
    else set(next);
  };
  return (
    <label class="field figure-field" data-bare={bare ? "true" : undefined}>
      <span class={bare ? "aloud" : "field-name"}>{label}</span>
      <input
        type="text"
        inputMode="decimal"
        autocomplete="off"
        maxLength={30}
        value={text}
        placeholder={empty}
        aria-invalid={trouble ? "true" : undefined}
        onInput={(event) => setText(event.currentTarget.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === "Enter") take();
          if (event.key === "Escape") {
            setText(shown);
            setTrouble(null);
          }
        }}
      />
      {trouble && (
        <span class="trouble" role="alert">
          {trouble}
        </span>
      )}
    </label>
  );
}

function said(app: App, value: number, unit: FigureUnit): string {
  const { words } = app;
  if (unit === "mm") return sayLength(words, app.units, value);
  const plain = words.write.number(value, decimalsOf(value));
  if (unit === "minor") {
    const digits = minorDigits(app.job.currency ?? "EUR");
    return words.write.number(value / 10 ** digits, digits);
  }
  return unit === "plain" ? plain : words.field.unit[unit](plain);
}

function read(app: App, text: string, unit: FigureUnit): number | null {
  if (unit === "mm") {
    const length = readLength(text, app.units === "imperial" ? "ft" : "mm");
    return length.ok ? length.mm : null;
  }
  // A unit behind the figure is allowed and left away.
  const tidy = text
    .replace(/[\u00a0\u2009\u202f]/g, " ")
    .replace(/[^\d.,\s]+.*$/, "")
    .trim();
  const values = readNumber(tidy);
  if (values.length === 0) return null;
  // Money and small figures: "1.234" is one and a bit before it is a thousand.
  const value = Math.min(...values);
  if (unit !== "minor") return value;
  return Math.round(value * 10 ** minorDigits(app.job.currency ?? "EUR"));
}

function bounds(app: App, min: number, max: number, unit: FigureUnit): string {
  const least = said(app, min, unit);
  return Number.isFinite(max) ? app.words.field.between(least, said(app, max, unit)) : app.words.field.atLeast(least);
}

function decimalsOf(value: number): number {
  for (let count = 0; count < 3; count++) {
    const scaled = value * [1, 10, 100][count]!;
    if (Math.abs(scaled - Math.round(scaled)) < 1e-6) return count;
  }
  return 3;
}
