import { useState } from "preact/hooks";

/** A line of text: what is being typed stays, whatever else changes meanwhile; it counts when the field is left or with Enter. */
export function TextField(props: { label: string; value: string; set(value: string): void; maxLength?: number }) {
  const [typed, setTyped] = useState<string | null>(null);
  const done = () => {
    if (typed !== null && typed !== props.value) props.set(typed);
    setTyped(null);
  };
  return (
    <label class="field">
      <span class="field-name">{props.label}</span>
      <input
        type="text"
        maxLength={props.maxLength ?? 200}
        value={typed ?? props.value}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onBlur={done}
        onKeyDown={(event) => {
          if (event.key === "Enter") done();
        }}
      />
    </label>
  );
}
