import type { Job } from "../../../../core/job/job.ts";
import { FigureField } from "../../look/figure-field.tsx";
import type { App } from "../step.ts";

type Name = keyof Job["base"]["limits"];
/** Bounds as in the job's schema. */
const LIMITS: readonly (readonly [Name, "mm" | "percent", number, number])[] = [
  ["unevenness", "mm", 0.1, 100],
  ["straightedge", "mm", 200, 10_000],
  ["deviation", "mm", 0.1, 1000],
  ["fallMin", "percent", 0, 50],
  ["fallMax", "percent", 0, 50],
  ["fallLocalMin", "percent", 0, 50],
];

/** The limits the base is judged by. */
export function Limits({ app }: { app: App }) {
  const { base } = app.words;
  const limits = { ...app.record!.job.base.limits, ...app.job.base?.limits };
  return (
    <details>
      <summary>{base.limits}</summary>
      <div class="pair-fields">
        {LIMITS.map(([name, unit, min, max]) => (
          <FigureField
            key={name}
            app={app}
            label={base.limitNames[name]}
            value={limits[name]}
            unit={unit}
            min={min}
            max={max}
            set={(value) =>
              app.edit("limits", (job) => {
                job.base = { ...job.base, limits: { ...job.base?.limits, [name]: value! } };
              })
            }
          />
        ))}
      </div>
    </details>
  );
}
