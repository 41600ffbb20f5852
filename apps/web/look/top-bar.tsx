import type { ComponentType } from "preact";
import { useState } from "preact/hooks";
import type { App } from "../road/step.ts";
import type { MenuProps } from "./menu.tsx";

export type TopBarProps = Omit<MenuProps, "close">;

/** The job's name (opens its sheet), what the planner is at, whether everything is kept; undo and redo. */
export function TopBar(props: TopBarProps) {
  const { app } = props;
  const { words, store } = app;
  const { shell } = words;
  const { undo, redo } = store.state;
  const [Menu, setMenu] = useState<ComponentType<MenuProps> | null>(null);
  const [open, setOpen] = useState(false);
  const openMenu = async () => {
    if (!Menu) {
      const { default: loaded } = await import("./menu.tsx");
      setMenu(() => loaded);
    }
    setOpen(true);
  };
  return (
    <header class="top">
      <button type="button" class="job" aria-haspopup="dialog" onClick={openMenu}>
        <h1>{app.job.title}</h1>
        <span class="job-menu">{shell.menu}</span>
      </button>
      <State app={app} lasting={props.opened.lasting} />
      <button
        type="button"
        class="top-key"
        disabled={!undo}
        aria-label={shell.undo(undo && words.edits[undo])}
        title={shell.undo(undo && words.edits[undo])}
        onClick={app.undo}
      >
        {shell.undoShort}
      </button>
      <button
        type="button"
        class="top-key"
        disabled={!redo}
        aria-label={shell.redo(redo && words.edits[redo])}
        title={shell.redo(redo && words.edits[redo])}
        onClick={app.redo}
      >
        {shell.redoShort}
      </button>
      {open && Menu && (
        <Menu
          {...props}
          openStore={(store, fresh) => {
            props.openStore(store, fresh);
            // a new job is measured at once
            if (fresh) setOpen(false);
          }}
          close={() => setOpen(false)}
        />
      )}
    </header>
  );
}

/** One line in a place of its own, so that nothing moves when it changes. */
function State({ app, lasting }: { app: App; lasting: boolean }) {
  const { words, desk, store } = app;
  const { shell } = words;
  const { stage, broken, stopped } = desk.state;
  const { keeping } = store.state;
  const trouble = !lasting
    ? shell.notLasting
    : keeping === "stuck"
      ? shell.notSaved
      : broken
        ? shell.broken
        : stopped
          ? shell.stopped
          : null;
  return (
    <div class="state">
      <p role="status" class={trouble ? "trouble" : ""}>
        {trouble ?? (stage ? shell.working(words.stages[stage]) : shell[keeping === "saving" ? "saving" : "saved"])}
      </p>
      {stage && (
        <button type="button" class="top-key" onClick={desk.stop}>
          {shell.stop}
        </button>
      )}
      {(stopped || broken) && (
        <button type="button" class="top-key" onClick={desk.again}>
          {shell.planAgain}
        </button>
      )}
    </div>
  );
}
