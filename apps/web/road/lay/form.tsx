import type { PlanRecord } from "../../../../core/plan/record.ts";
import type { RowCard } from "../../../../papers/rowCards.ts";
import type { App } from "../step.ts";
import type { SiteLog } from "./log.ts";
import type { Replan } from "./replan.tsx";

/** What every form of what went otherwise gets. */
export interface FormProps {
  app: App;
  record: PlanRecord;
  log: SiteLog;
  cards: readonly RowCard[];
  by: string;
  busy: boolean;
  replan: Replan;
  /** Called when the form has entered its event, or was left. */
  done(entered: boolean): void;
}
/** The keys under a form: enter it, or leave it. */
export function Enter(props: { app: App; enter(): void; done(entered: boolean): void; disabled?: boolean }) {
  const { lay } = props.app.words;
  return (
    <div class="keys">
      <button
        type="button"
        class="main"
        disabled={props.disabled}
        onClick={() => {
          props.enter();
          props.done(true);
        }}
      >
        {lay.enter}
      </button>
      <button type="button" onClick={() => props.done(false)}>
        {lay.cancel}
      </button>
    </div>
  );
}
