import { useEffect, useState } from "preact/hooks";
import { FigureField } from "../../look/figure-field.tsx";
import type { App } from "../step.ts";

export interface SlideProps {
  app: App;
  label: string;
  /** As the job asks; null: chosen by Rowline. */
  value: number | null;
  /** What was chosen, shown where the job asks nothing. */
  now: number;
  min: number;
  max: number;
  step: number;
  unit: "mm" | "plain";
  show(value: number): void;
  take(value: number | null): void;
  drop(): void;
}

/** A figure that is slid to and fro while the drawing follows, nudged by keys and buttons, or typed. Taken once, at the end. */
export function Slide({ app, label, value, now, min, max, step, unit, show, take, drop }: SlideProps) {
  const [held, setHeld] = useState<number | null>(null);
  const at = held ?? value ?? now;
  useEffect(() => setHeld(null), [value, now]);
  const { setout } = app.words;
  const nudge = (by: number) => take(Math.min(max, Math.max(min, tidy(at + by))));
  return (
    <div class="slide">
      <FigureField
        app={app}
        label={label}
        value={value}
        unit={unit}
        min={min}
        max={max}
        empty={`${app.words.write.number(tidy(now), now % 1 === 0 ? 0 : 1)} ${setout.choose}`}
        set={take}
      />
      <div class="slide-track">
        <button type="button" aria-label={`${label} −${step}`} onClick={() => nudge(-step)}>
          −
        </button>
        <input
          type="range"
          aria-label={label}
          min={min}
          max={max}
          step={step}
          value={at}
          onInput={({ currentTarget }) => {
            const next = Number(currentTarget.value);
            setHeld(next);
            show(next);
          }}
          onChange={({ currentTarget }) => take(Number(currentTarget.value))}
          onPointerCancel={() => {
            setHeld(null);
            drop();
          }}
        />
        <button type="button" aria-label={`${label} +${step}`} onClick={() => nudge(step)}>
          +
        </button>
      </div>
    </div>
  );
}

function tidy(value: number): number {
  return Math.round(value * 10) / 10;
}
