import type { ComponentChildren } from "preact";
import { useRef } from "preact/hooks";
import type { AppWords } from "../../../words/app.ts";
import "./pad.css";

/** What the pad makes of a text: a value to take, or null and why not. */
export interface PadRead {
  value: number | null;
  says: string;
}
export interface PadProps {
  words: AppWords;
  /** What is typed here; names the field. */
  label: string;
  text: string;
  setText(text: string): void;
  read: PadRead;
  /** Takes the value; the text is emptied by the owner. */
  onNext(value: number): void;
  /** The reading before this one, for "same as last". */
  last?: { value: number; says: string } | null;
  /** Keys that this kind of figure has beside the digits; "" leaves the place empty. */
  extra: readonly (readonly [insert: string, label: string, shown: string])[];
  minus: boolean;
  children?: ComponentChildren;
}

/** Our own number pad: keys for gloved thumbs, and the same with a keyboard. Shows what it understood before it is taken. */
export function Pad(props: PadProps) {
  const { words, label, text, setText, read, onNext, last, extra, minus } = props;
  const field = useRef<HTMLInputElement>(null);
  const put = (sign: string) => setText(text + sign);
  const take = () => {
    if (read.value !== null) onNext(read.value);
    field.current?.focus({ preventScroll: true });
  };
  const turnSign = () => setText(/^[-\u2212]/.test(text) ? text.slice(1) : `-${text}`);
  return (
    <form
      class="pad"
      aria-label={words.pad.pad(label)}
      onSubmit={(event) => {
        event.preventDefault();
        take();
      }}
    >
      <label class="pad-field">
        <span>{label}</span>
        <input
          ref={field}
          type="text"
          inputMode="none"
          autocomplete="off"
          maxLength={40}
          value={text}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <output class="pad-says" aria-live="polite" data-doubt={read.value === null && text !== "" ? "true" : undefined}>
        {read.says}
      </output>
      <div class="pad-keys">
        {extra.map(([insert, name, shown]) => (
          <button key={shown} type="button" aria-label={name} class="pad-extra" onClick={() => put(insert)}>
            {shown}
          </button>
        ))}
        {["7", "8", "9"].map((digit) => (
          <Key key={digit} sign={digit} put={put} />
        ))}
        <button type="button" aria-label={words.pad.back} onClick={() => setText(text.slice(0, -1))}>
          {"\u232b"}
        </button>
        {["4", "5", "6"].map((digit) => (
          <Key key={digit} sign={digit} put={put} />
        ))}
        <button type="button" aria-label={words.pad.minus} disabled={!minus} onClick={turnSign}>
          {"\u2212"}
        </button>
        {["1", "2", "3"].map((digit) => (
          <Key key={digit} sign={digit} put={put} />
        ))}
        <button type="button" class="pad-same" disabled={!last} onClick={() => last && onNext(last.value)}>
          {words.pad.same((last?.says ?? "\u2013").replaceAll("\u2009", "\u202f"))}
        </button>
        {[",", "0", "."].map((digit) => (
          <Key key={digit} sign={digit} put={put} />
        ))}
        <button type="submit" class="pad-next" aria-disabled={read.value === null}>
          {words.pad.next}
        </button>
      </div>
      {props.children}
    </form>
  );
}

function Key({ sign, put }: { sign: string; put(sign: string): void }) {
  return (
    <button type="button" onClick={() => put(sign)}>
      {sign}
    </button>
  );
}
