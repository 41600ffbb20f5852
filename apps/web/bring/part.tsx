import { useState } from "preact/hooks";
import { BRING_LIMITS, type Refusal } from "../../../core/bring/brought.ts";
import type { App } from "../road/step.ts";
import "./bring.css";
import { Preview } from "./preview.tsx";

interface FileHeld {
  name: string;
  text: string;
}

/** Bringing in a file: chosen or dropped, looked at, then taken. */
export function BringPart({ app }: { app: App }) {
  const said = app.words.bring;
  const [held, setHeld] = useState<FileHeld | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const [over, setOver] = useState(false);
  const refuse = (why: Refusal, detail: string) => setRefused(said.refused[why](detail));
  const open = async (file: File | null | undefined) => {
    if (!file) return;
    setRefused(null);
    setHeld(null);
    if (file.size > BRING_LIMITS.textBytes) return refuse("tooLarge", `${BRING_LIMITS.textBytes / 1024 / 1024} MB`);
    const bytes = new Uint8Array(await file.arrayBuffer());
    setHeld({ name: file.name, text: decoded(bytes) });
  };
  if (held)
    return (
      <Preview
        app={app}
        name={held.name}
        text={held.text}
        refuse={(why, detail) => {
          setHeld(null);
          refuse(why, detail);
        }}
        done={() => setHeld(null)}
      />
    );
  return (
    <section
      class="bring"
      aria-label={app.words.measure.part.bring}
      data-over={over ? "true" : undefined}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        void open(event.dataTransfer?.files[0]);
      }}
    >
      <p class="hint">{said.hint}</p>
      <label class="key">
        {said.choose}
        <input
          type="file"
          accept=".csv,.txt,.xyz,.pts,.asc,.tsv,.dxf,.xml,.landxml,.geojson,.json,.ifc"
          onChange={(event) => {
            void open(event.currentTarget.files?.[0]);
            event.currentTarget.value = "";
          }}
        />
      </label>
      <p class="hint">{said.dropHere}</p>
      {refused && <p role="alert">{refused}</p>}
    </section>
  );
}

/** UTF-8 where it is; else the letters of the west, so that a heading with an umlaut does not spoil a table of figures. */
function decoded(bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}
