import type { ComponentChildren } from "preact";
import type { StepId } from "../../../words/app.ts";
import "../look/figure-field.css";
import type { App } from "./step.ts";

export interface KnownLine {
  name: string;
  figure: ComponentChildren;
  note?: string | null;
  /** The step in which the figure is made. */
  to?: StepId;
}

/** What the core knows already, figure by figure, each with what it stands on; a tap leads to where it is made. */
export function Known({ app, title, lines }: { app: App; title: string; lines: readonly KnownLine[] }) {
  return (
    <table class="known">
      <caption class="aloud">{title}</caption>
      <tbody>
        {lines.map(({ name, figure, note, to }) => (
          <tr key={name}>
            <th scope="row">
              {name}
              {note && <div class="small">{note}</div>}
            </th>
            <td>
              {to ? (
                <button
                  type="button"
                  class="traced"
                  aria-label={`${name}: ${String(figure)}, ${app.words.steps[to].name}`}
                  onClick={() => app.go(to)}
                >
                  <strong>{figure}</strong>
                </button>
              ) : (
                <strong>{figure}</strong>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
