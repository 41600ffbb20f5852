import { useState } from "preact/hooks";
import { CARE, type Care as Point } from "../../../../words/app/lay.ts";
import { lastName } from "../lay/log.ts";
import type { App } from "../step.ts";
import { today } from "../today.ts";

/** Points seen with one's own eyes before one leaves: each with a name and a day, kept in the job. */
export function Care({ app }: { app: App }) {
  const { handover: said } = app.words;
  const checks = app.job["x-handover"]?.checks ?? {};
  const names = Object.values(checks);
  const [by, setBy] = useState(() => names[names.length - 1]?.by ?? lastName(app));
  const set = (point: Point, seen: boolean) =>
    app.edit("handover", (job) => {
      const { [point]: _before, ...others } = job["x-handover"]?.checks ?? {};
      const one = { by: by.trim() === "" ? said.nobody : by.trim(), on: today() };
      job["x-handover"] = { ...job["x-handover"], checks: seen ? { ...others, [point]: one } : others };
    });
  return (
    <section>
      <h3>{said.care}</h3>
      <p class="small">{said.careHint}</p>
      <label class="field">
        <span class="field-name">{said.who}</span>
        <input type="text" maxLength={100} value={by} onInput={({ currentTarget: { value } }) => setBy(value)} />
      </label>
      <ul class="plain ruled care">
        {CARE.map((point) => (
          <li key={point}>
            <label>
              <input
                type="checkbox"
                checked={checks[point] !== undefined}
                onChange={({ currentTarget: { checked } }) => set(point, checked)}
              />
              <span>
                {said.carePoint[point]}
                {checks[point] && <small>{said.seenBy(checks[point].by, checks[point].on)}</small>}
              </span>
            </label>
          </li>
        ))}
      </ul>
    </section>
  );
}
