import type { Confirmation, Job, Unknowable } from "../../../../core/job/job.ts";
import type { Hidden } from "../../../../words/app/base.ts";
import { Choice } from "../../look/choice.tsx";
import { FigureField } from "../../look/figure-field.tsx";
import { Sign } from "../../look/sign.tsx";
import type { App } from "../step.ts";
import { Confirm } from "./confirm.tsx";

const HIDDEN: readonly Hidden[] = ["firm", "membrane", "heating", "tendons"];
const KINDS: readonly Job["base"]["kind"][] = ["concrete", "screed", "tiles", "paving", "asphalt"];

/** What the base is and what lies in it: yes, no, or unknown; and who answers for it. */
export function Declared({ app }: { app: App }) {
  const { base, field } = app.words;
  const given = app.record!.job.base;
  const released = app.record!.site.drillingReleased;
  const confirmed = (app.job.base?.confirmed ?? []) as Confirmation[];
  return (
    <section>
      <h3>{base.declared}</h3>
      <p class={released ? "" : "verdict"}>
        {!released && <Sign symbol="stop" />}
        {released ? base.drilling.released : base.drilling.stopped}
      </p>
      <p class="small">{base.declaredHint}</p>
      <label class="field">
        <span class="field-name">{base.kind}</span>
        <select
          value={given.kind}
          onChange={({ currentTarget: { value } }) =>
            app.edit("base", (job) => {
              job.base = { ...job.base, kind: value as Job["base"]["kind"] };
            })
          }
        >
          {KINDS.map((kind) => (
            <option key={kind} value={kind}>
              {base.kinds[kind]}
            </option>
          ))}
        </select>
      </label>
      {HIDDEN.map((name) => (
        <Choice
          key={name}
          label={base.ask[name]}
          value={answerOf(given[name])}
          options={(["yes", "no", "unknown"] as const).map((one) => [one, base.answer[one]] as const)}
          set={(one) =>
            app.edit("base", (job) => {
              job.base = { ...job.base, [name]: one === "unknown" ? "unknown" : one === "yes" };
            })
          }
        />
      ))}
      <Choice
        label={base.suspended}
        value={given.suspended ? "yes" : "no"}
        options={(["yes", "no"] as const).map((one) => [one, base.answer[one]] as const)}
        set={(one) =>
          app.edit("base", (job) => {
            job.base = { ...job.base, suspended: one === "yes" };
          })
        }
      />
      {given.suspended && (
        <FigureField
          app={app}
          label={base.loadMax}
          value={given.loadMax}
          unit="kgM2"
          max={100_000}
          empty={base.answer.unknown}
          set={(value) =>
            app.edit("base", (job) => {
              job.base = { ...job.base, loadMax: value };
            })
          }
        />
      )}
      <h3>{base.confirmations}</h3>
      <ul class="plain confirmed">
        {confirmed.map((one, i) => (
          <li key={`${one.of} ${one.by} ${one.on}`}>
            <span>{base.confirmed(base.subject[one.of], one.by, one.on, one.says ?? "")}</span>
            <button
              type="button"
              aria-label={field.remove(`${base.subject[one.of]}, ${one.by}`)}
              onClick={() =>
                app.edit("base", (job) => {
                  job.base = { ...job.base, confirmed: confirmed.filter((_, k) => k !== i) };
                })
              }
            >
              {"\u00d7"}
            </button>
          </li>
        ))}
      </ul>
      <Confirm app={app} confirmed={confirmed} />
    </section>
  );
}

function answerOf(value: Unknowable): "yes" | "no" | "unknown" {
  return value === "unknown" ? "unknown" : value ? "yes" : "no";
}
