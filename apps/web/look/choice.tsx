/** One of a few, as a row of radio keys: all seen at once, one tap. */
export function Choice<T extends string>(props: {
  label: string;
  value: T;
  options: readonly (readonly [value: NoInfer<T>, words: string])[];
  set(value: NoInfer<T>): void;
}) {
  return (
    <fieldset class="choice">
      <legend>{props.label}</legend>
      {props.options.map(([value, words]) => (
        <label key={value}>
          <input type="radio" name={props.label} checked={value === props.value} onChange={() => props.set(value)} />
          <span class="word">{words}</span>
        </label>
      ))}
    </fieldset>
  );
}
