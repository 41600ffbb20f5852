import type { App } from "../step.ts";

/** Millimetres off, by large keys: five and one, either way. */
export function OffBy(props: { app: App; name: string; value: number; set(value: number): void; says: string }) {
  const { app, name, value, set, says } = props;
  const { lay, write, field } = app.words;
  const key = (by: number) => (
    <button
      type="button"
      aria-label={`${by > 0 ? lay.more(name) : lay.less(name)}${Math.abs(by) > 1 ? ` \u00d7 ${Math.abs(by)}` : ""}`}
      onClick={() => set(Math.max(-200, Math.min(200, value + by)))}
    >
      {by > 0 ? `+${by}` : `\u2212${-by}`}
    </button>
  );
  return (
    <fieldset class="off-by" aria-label={name}>
      <p aria-live="polite">
        <small>{name}</small>
        <strong>{field.unit.mm(write.number(Math.abs(value), 0))}</strong>
        <small>{says}</small>
      </p>
      <div class="off-keys">
        {key(-5)}
        {key(-1)}
        {key(1)}
        {key(5)}
      </div>
    </fieldset>
  );
}
