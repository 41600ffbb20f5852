import { Fragment } from "preact";
import type { StepId } from "../../../words/app.ts";
import "../look/figure-field.css";
import type { App } from "./step.ts";

export interface KnownLine {
  name: string;
  figure: string;
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
          <Fragment key={name}>
            <tr>
              <th scope="row">{name}</th>
              <td>
                {to ? (
                  <button
                    type="button"
                    class="traced"
                    aria-label={`${name}: ${figure}, ${app.words.steps[to].name}`}
                    onClick={() => app.go(to)}
                  >
                    <strong>{figure.replaceAll("\u2009", "\u202f")}</strong>
                  </button>
                ) : (
                  <strong>{figure.replaceAll("\u2009", "\u202f")}</strong>
                )}
              </td>
            </tr>
            {note && (
              <tr class="note">
                <td colSpan={2} class="small">
                  {note}
                </td>
              </tr>
            )}
          </Fragment>
        ))}
      </tbody>
    </table>
  );
}
