import { useState } from "preact/hooks";
import type { Confirmation } from "../../../../core/job/job.ts";
import type { App } from "../step.ts";
import { today } from "../today.ts";

const SUBJECTS: readonly Confirmation["of"][] = [
  "membrane",
  "heating",
  "tendons",
  "services",
  "firmness",
  "fixing",
  "load",
];

/** A confirmation: of what, by whom, when, in which words. Without a name there is none. */
export function Confirm({ app, confirmed }: { app: App; confirmed: readonly Confirmation[] }) {
  const { base } = app.words;
  const [of, setOf] = useState<Confirmation["of"]>("services");
  const [by, setBy] = useState("");
  const [on, setOn] = useState(today());
  const [says, setSays] = useState("");
  const [asked, setAsked] = useState(false);
  const ready = by.trim() !== "" && /^\d{4}-\d{2}-\d{2}$/.test(on);
  return (
    <details>
      <summary>{base.confirm}</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (!ready) return setAsked(true);
          const one: Confirmation = { of, by: by.trim(), on, says: says.trim() };
          app.edit("base", (job) => {
            job.base = { ...job.base, confirmed: [...confirmed, one] };
          });
          setBy("");
          setSays("");
          setAsked(false);
        }}
      >
        <p class="small">{base.confirmHint}</p>
        <label class="field">
          <span class="field-name">{base.of}</span>
          <select value={of} onChange={({ currentTarget: { value } }) => setOf(value as Confirmation["of"])}>
            {SUBJECTS.map((one) => (
              <option key={one} value={one}>
                {base.subject[one]}
              </option>
            ))}
          </select>
        </label>
        <label class="field">
          <span class="field-name">{base.by}</span>
          <input
            type="text"
            maxLength={200}
            autocomplete="name"
            value={by}
            onInput={({ currentTarget: { value } }) => setBy(value)}
          />
        </label>
        <label class="field">
          <span class="field-name">{base.on}</span>
          <input type="date" value={on} onInput={({ currentTarget: { value } }) => setOn(value)} />
        </label>
        <label class="field">
          <span class="field-name">{base.says}</span>
          <input type="text" maxLength={200} value={says} onInput={({ currentTarget: { value } }) => setSays(value)} />
        </label>
        {asked && !ready && <p role="alert">{base.needsName}</p>}
        <button type="submit" class="main">
          {base.confirm}
        </button>
      </form>
    </details>
  );
}
