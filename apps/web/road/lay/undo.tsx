import type { ProgressEvent } from "../../../../core/progress/schema.ts";
import { rowNumber } from "../../../../papers/rowNumber.ts";
import type { App } from "../step.ts";
import { figureOf } from "./card.tsx";
import { enter, type SiteLog } from "./log.ts";

/** Takes back what was entered last; the entry stays in the log, it only does not count any more. */
export function UndoKey({ app, log, by, busy }: { app: App; log: SiteLog; by: string; busy: boolean }) {
  const { lay } = app.words;
  const last = log.live[log.live.length - 1];
  return (
    <button
      type="button"
      disabled={busy || !last}
      onClick={() => last && enter(app, log, by, { kind: "undo", event: last.id })}
    >
      {last ? lay.undo(said(app, last)) : lay.nothingToUndo}
    </button>
  );
}

function said(app: App, event: ProgressEvent): string {
  const { did } = app.words.lay;
  switch (event.kind) {
    case "laid":
      return did.laid(event.piece);
    case "line":
      return did.line(rowNumber(event.row));
    case "broken":
      return did.broken(event.piece ?? event.board ?? "");
    case "offcut":
      return did.offcut(figureOf(app)(event.length));
    case "wall":
      return did.wall(app.words.write.number(event.side + 1, 0));
    case "gap":
    case "hole":
    case "level":
      return did[event.kind];
    case "undo":
      return "";
  }
}
