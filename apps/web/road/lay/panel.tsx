import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { PlanRecord } from "../../../../core/plan/record.ts";
import { type RowCard, rowCardsOf } from "../../../../papers/rowCards.ts";
import { rowNumber } from "../../../../papers/rowNumber.ts";
import type { Words } from "../../../../words/words.ts";
import "../../look/figure-field.css";
import { usePlanWords } from "../plan-words.ts";
import type { App, StepPanel } from "../step.ts";
import { Card } from "./card.tsx";
import { drawRow } from "./draw.ts";
import { lastName, type SiteLog, siteLog } from "./log.ts";
import "./panel.css";
import { Otherwise } from "./otherwise.tsx";
import { OtherPlan, useReplan } from "./replan.tsx";
import { UndoKey } from "./undo.tsx";

/** Row by row as it really goes: one card, one tap a piece; what went otherwise plans the rest again. */
const Panel: StepPanel = ({ app }) => {
  const { lay } = app.words;
  const plan = usePlanWords(app);
  const now = siteLog(app);
  // While a newer plan is being proved the card stays, and nothing can be entered.
  const held = useRef<SiteLog | null>(null);
  if (now) held.current = now;
  const { record } = app;
  const log = held.current;
  if (!record || !plan || !log) return <p>{lay.noRecord}</p>;
  return <Rows app={app} record={record} plan={plan} log={log} waits={!now} />;
};
export default Panel;

interface Given {
  app: App;
  record: PlanRecord;
  plan: Words;
  log: SiteLog;
  waits: boolean;
}

function Rows({ app, record, plan, log, waits }: Given) {
  const { lay, write } = app.words;
  const rows = useMemo(() => cardsByRow(record), [record]);
  const [row, setRow] = useState<number | null>(null);
  const [by, setBy] = useState(() => lastName(app));
  const replan = useReplan(app, log.planHash);
  const ids = (cards: readonly RowCard[]) => piecesOf(cards).map(({ id }) => id);
  const isOpen = (cards: readonly RowCard[]) => ids(cards).some((id) => !log.state.laid.has(id));
  const order = [...rows.keys()];
  const firstOpen = order.find((one) => isOpen(rows.get(one)!)) ?? order[order.length - 1];
  const shown = row !== null && rows.has(row) ? row : firstOpen;
  const laid = log.state.laid;
  useEffect(() => {
    if (shown !== undefined) app.overlay(drawRow(record, shown, laid));
    return () => app.overlay(null);
  }, [record, shown, app.events]);
  // The row last looked at stays while it fills; the app never goes to the next by itself.
  useEffect(() => {
    if (row === null && shown !== undefined) setRow(shown);
  }, [shown]);
  if (shown === undefined) return <p>{lay.noRows}</p>;
  const cards = rows.get(shown)!;
  const at = order.indexOf(shown);
  const name = by.trim() === "" ? lay.nobody : by.trim();
  const all = record.bond.pieces.length;
  const busy = app.stale || waits || replan.busy;
  return (
    <div class="lay">
      {log.other && <OtherPlan app={app} log={log} replan={replan} />}
      <div class="row-head">
        <button type="button" aria-label={lay.before} disabled={at === 0} onClick={() => setRow(order[at - 1]!)}>
          {"\u2212"}
        </button>
        <button type="button" class="row-name" onClick={() => app.show(middleOf(record, shown))}>
          <span>
            {lay.row(rowNumber(shown))} <small>{lay.of(write.number(order.length, 0))}</small>
          </span>
          <small>
            {at === 0 && `${lay.first}, `}
            {at === order.length - 1 && `${lay.last}, `}
            {lay.laid(
              write.number(ids(cards).filter((id) => laid.has(id)).length, 0),
              write.number(ids(cards).length, 0),
            )}
            <span class="aloud">, {lay.showRow}</span>
          </small>
        </button>
        <button
          type="button"
          aria-label={lay.next}
          disabled={at === order.length - 1}
          onClick={() => setRow(order[at + 1]!)}
        >
          +
        </button>
      </div>
      {(app.stale || waits) && <p role="status">{lay.stale}</p>}
      <Card app={app} record={record} plan={plan} log={log} cards={cards} by={name} busy={busy} />
      <div class="row-ways">
        {!isOpen(cards) && at < order.length - 1 && (
          <button type="button" class="main" onClick={() => setRow(order[at + 1]!)}>
            {lay.next}
          </button>
        )}
        {firstOpen !== undefined && firstOpen !== shown && isOpen(rows.get(firstOpen)!) && (
          <button type="button" onClick={() => setRow(firstOpen)}>
            {lay.nextOpen}: {rowNumber(firstOpen)}
          </button>
        )}
        <UndoKey app={app} log={log} by={name} busy={busy} />
      </div>
      <Otherwise app={app} record={record} log={log} cards={cards} by={name} busy={busy} replan={replan} />
      <label class="field">
        <span class="field-name">{lay.who}</span>
        <input type="text" maxLength={100} value={by} onInput={({ currentTarget: { value } }) => setBy(value)} />
      </label>
      <p class="small">{lay.whole(write.number(laid.size, 0), write.number(all, 0))}</p>
    </div>
  );
}

/** Cards of each row in laying order: clips of a far edge first, then the row's stretches from the left. */
function cardsByRow(record: PlanRecord): Map<number, RowCard[]> {
  const rows = new Map<number, RowCard[]>();
  for (const card of rowCardsOf(record)) rows.set(card.row, [...(rows.get(card.row) ?? []), card]);
  return rows;
}

function piecesOf(cards: readonly RowCard[]): RowCard["pieces"] {
  return cards.flatMap((card) => (card.part === "row" ? card.pieces : []));
}

function middleOf(record: PlanRecord, row: number): readonly [number, number] {
  const [item] = drawRow(record, row, new Set()).slice(-1);
  const points = item?.kind === "path" ? item.points : [];
  const sum = points.reduce<[number, number]>(([x, y], p) => [x + p[0], y + p[1]], [0, 0]);
  return [sum[0] / Math.max(1, points.length), sum[1] / Math.max(1, points.length)];
}
