import type { AppWords } from "../../../words/app.ts";
import type { Opened, Settings } from "../open.ts";
import type { App } from "../road/step.ts";
import type { Store } from "../store/store.ts";

export interface TopBarProps {
  app: App;
  opened: Opened;
  settings: Settings;
  keep(change: Partial<Settings>): void;
  setWords(words: AppWords): void;
  openStore(store: Store): void;
}
/** The job's title, undo and redo, what the planner is at, and whether everything is kept. */
export function TopBar({ app }: TopBarProps) {
  const { words, store, desk, job } = app;
  const { undo, redo, keeping } = store.state;
  const { stage, broken, stopped } = desk.state;
  const { shell } = words;
  return (
    <header class="top">
      <h1>{job.title}</h1>
      <p class="state" role="status">
        {broken
          ? shell.broken
          : stopped
            ? shell.stopped
            : stage
              ? shell.working(words.stages[stage])
              : shell[keeping === "stuck" ? "notSaved" : keeping]}
      </p>
      {stage && (
        <button type="button" onClick={desk.stop}>
          {shell.stop}
        </button>
      )}
      <button type="button" disabled={!undo} onClick={app.undo}>
        {shell.undo(undo && words.edits[undo])}
      </button>
      <button type="button" disabled={!redo} onClick={app.redo}>
        {shell.redo(redo && words.edits[redo])}
      </button>
    </header>
  );
}
