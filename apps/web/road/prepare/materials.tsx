import type { BaseMaterial } from "../../../../core/job/job.ts";
import { Choice } from "../../look/choice.tsx";
import { FigureField } from "../../look/figure-field.tsx";
import type { App } from "../step.ts";

/** Bounds as in the job's schema. */
const FIGURES = [
  ["min", "mm", 0, 1000],
  ["max", "mm", 0.1, 1000],
  ["cost", "minor", 0, 1e9],
  ["density", "kg", 0.01, 25],
  ["bag", "litre", 0.01, 10_000],
] as const;

/** What the base may be made right with: least and greatest thickness, cost, weight, bag. */
export function Materials({ app }: { app: App }) {
  const { prepare, field, write } = app.words;
  const given = app.record!.job.base.preparation;
  const { materials } = given;
  const put = (next: readonly BaseMaterial[]) =>
    app.edit("preparation", (job) => {
      job.base = { ...job.base, preparation: { ...job.base?.preparation, materials: [...next] } };
    });
  const change = (i: number, part: Partial<BaseMaterial>) =>
    put(materials.map((one, k) => (k === i ? { ...one, ...part } : one)));
  return (
    <details>
      <summary>{prepare.materials}</summary>
      {materials.map((material, i) => (
        <fieldset class="material" key={`${i} ${materials.length}`}>
          <legend>{prepare.material(write.number(i + 1, 0))}</legend>
          <label class="field">
            <span class="field-name">{prepare.name}</span>
            <input
              type="text"
              maxLength={200}
              value={material.name}
              onChange={({ currentTarget: { value } }) => change(i, { name: value })}
            />
          </label>
          <Choice
            label={prepare.kind}
            value={material.kind}
            options={(["shaped", "pourable"] as const).map((kind) => [kind, prepare.kinds[kind]] as const)}
            set={(kind) => change(i, { kind })}
          />
          <div class="pair-fields">
            {FIGURES.map(([name, unit, min, max]) => (
              <FigureField
                key={name}
                app={app}
                label={name === "cost" ? `${prepare.cost}, ${app.record!.job.currency}` : prepare[name]}
                value={material[name]}
                unit={unit}
                min={min}
                max={max}
                {...(name === "bag" ? { empty: prepare.loose } : {})}
                set={(value) => change(i, { [name]: value })}
              />
            ))}
          </div>
          <button type="button" onClick={() => put(materials.filter((_, k) => k !== i))}>
            {field.remove(material.name)}
          </button>
        </fieldset>
      ))}
      <p>
        <button
          type="button"
          disabled={materials.length >= 20}
          onClick={() =>
            put([
              ...materials,
              { name: prepare.newMaterial, kind: "shaped", min: 3, max: 50, cost: 3500, density: 1.8, bag: null },
            ])
          }
        >
          {prepare.add}
        </button>
      </p>
      <div class="pair-fields">
        {(
          [
            ["grindMax", "mm", 100],
            ["grindCost", "minor", 1e9],
          ] as const
        ).map(([name, unit, max]) => (
          <FigureField
            key={name}
            app={app}
            label={name === "grindCost" ? `${prepare.grindCost}, ${app.record!.job.currency}` : prepare.grindMax}
            value={given[name]}
            unit={unit}
            max={max}
            set={(value) =>
              app.edit("preparation", (job) => {
                job.base = { ...job.base, preparation: { ...job.base?.preparation, [name]: value! } };
              })
            }
          />
        ))}
      </div>
    </details>
  );
}
