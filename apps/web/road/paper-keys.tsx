import { useState } from "preact/hooks";
import type { OrderWords } from "../../../words/app/order.ts";
import { printSheets } from "./print.ts";
import type { App } from "./step.ts";
import "./paper-keys.css";

export type PaperStem = keyof OrderWords["paper"];
export type PaperFormat = keyof OrderWords["format"];
type Papers = readonly (readonly [stem: PaperStem, formats: readonly PaperFormat[]])[];

/** Papers with a key for each format: written in the worker, handed over as a file or sent to the printer. */
export function PaperKeys({ app, papers, plan }: { app: App; papers: Papers; plan?: boolean }) {
  const { words, answer, stale } = app;
  const { order, shell } = words;
  const [making, setMaking] = useState<string | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  if (!answer?.ok || (answer.checked && !answer.proved)) return <p class="small">{shell.papersWait}</p>;
  const make = async (name: string, print: boolean) => {
    setMaking(name);
    setSaid(null);
    try {
      const files = await app.desk.papers([name]);
      if (files.length === 0) setSaid(order.none);
      else if (print) await printSheets(files);
      else app.give(files);
    } catch {
      setSaid(shell.papersFailed);
    }
    setMaking(null);
  };
  const busy = making !== null || stale || !answer.proved;
  return (
    <div class="paper-keys">
      {papers.map(([stem, formats]) => (
        <fieldset key={stem}>
          <legend>{order.paper[stem]}</legend>
          {formats.map((format) => (
            <button
              key={format}
              type="button"
              disabled={busy}
              aria-label={order.formatOf(order.paper[stem], order.format[format])}
              onClick={() => make(`${stem}.${format}`, format === "print")}
            >
              {order.format[format]}
            </button>
          ))}
        </fieldset>
      ))}
      {plan && (
        <button type="button" disabled={busy} onClick={() => make("plan.json", false)}>
          {order.plan}
        </button>
      )}
      <p role="status" class="small">
        {making ? order.making : said}
      </p>
    </div>
  );
}
