import type { PlanRecord } from "../../../../core/plan/record.ts";
import { fixingWords, zeroWords } from "../../../../papers/cards.ts";
import type { Cut } from "../../../../papers/pieces.ts";
import type { RowCard } from "../../../../papers/rowCards.ts";
import type { Words } from "../../../../words/words.ts";
import { Sign } from "../../look/sign.tsx";
import { sayLength } from "../../pad/say.ts";
import type { App } from "../step.ts";
import { enter, type SiteLog } from "./log.ts";
import { Strip } from "./strip.tsx";

interface Given {
  app: App;
  record: PlanRecord;
  plan: Words;
  log: SiteLog;
  cards: readonly RowCard[];
  by: string;
  busy: boolean;
}

/** One row: its line at both ends, its clip marks, its pieces to be ticked. Left and right as one stands at the start line. */
export function Card({ app, record, plan, log, cards, by, busy }: Given) {
  const { lay } = app.words;
  const { cards: card } = plan.papers;
  const first = cards[0]!;
  const mm = figureOf(app);
  const pieces = cards.flatMap((one) => (one.part === "row" ? one.pieces : []));
  const open = pieces.filter(({ id }) => !log.state.laid.has(id));
  return (
    <>
      <section class="row-line" aria-label={lay.line}>
        <p>
          <small>{lay.left}</small>
          <strong>{mm(first.nearMm)}</strong>
          <small>{lay.far(mm(first.farMm))}</small>
        </p>
        <p>{lay.line}</p>
        <p>
          <small>{lay.right}</small>
          <strong>{mm(first.nearMm)}</strong>
          <small>{lay.far(mm(first.farMm))}</small>
        </p>
      </section>
      {first.check && <p class="row-check">{lay.check}</p>}
      {!record.site.drillingReleased && (
        <div class="row-stop">
          <p>
            <Sign symbol="stop" /> {lay.notReleased}
          </p>
          <button type="button" onClick={() => app.go("base")}>
            {lay.toBase}
          </button>
        </div>
      )}
      {cards.map((one) => (
        <section key={`${one.number} ${one.part}`}>
          {one.part === "row" && one.of > 1 && (
            <h3>{lay.stretch(app.words.write.number(one.number, 0), app.words.write.number(one.of, 0))}</h3>
          )}
          {one.zeroFrom && one.part === "row" && (
            <p class="small">{card.zero(one.pieces[0]!.id, zeroWords(one, plan))}</p>
          )}
          <Strip card={one} record={record} laid={log.state.laid} />
          {record.site.drillingReleased && <Marks app={app} card={one} />}
          {fixingWords(one, record, plan).map((said) => (
            <p key={said} class="row-depth">
              {said.replaceAll("\u2009", "\u202f")}
            </p>
          ))}
          {one.part === "row" && (
            <ol class="row-pieces">
              {one.pieces.map((cut, i) => (
                <li key={cut.id}>
                  <PieceKey
                    app={app}
                    cut={cut}
                    number={i + 1}
                    laid={log.state.laid.has(cut.id)}
                    busy={busy}
                    toggle={() => tick(app, log, by, cut.id)}
                  />
                </li>
              ))}
            </ol>
          )}
        </section>
      ))}
      {open.length > 1 && (
        <button
          type="button"
          class="tick-row"
          disabled={busy}
          onClick={() => {
            for (const { id } of open) enter(app, log, by, { kind: "laid", piece: id });
          }}
        >
          {lay.tickRow}
        </button>
      )}
      <p class="small">{card.stance}</p>
    </>
  );
}

/** Running dimensions of the clip marks from the stretch's left end. */
function Marks({ app, card }: { app: App; card: RowCard }) {
  const { lay } = app.words;
  const clips = card.part === "far" ? card.far : card.near;
  const mm = figureOf(app);
  if (clips.length === 0) return null;
  return (
    <div class="row-marks">
      <p class="small">{card.part === "far" ? lay.lastMarks : `${lay.marks}, ${lay.marksFrom(card.pieces[0]!.id)}`}</p>
      <ul>
        {clips.map(({ clip, alongMm }) => (
          <li key={clip}>{mm(alongMm)}</li>
        ))}
      </ul>
    </div>
  );
}

function PieceKey(props: { app: App; cut: Cut; number: number; laid: boolean; busy: boolean; toggle(): void }) {
  const { app, cut, number, laid, busy, toggle } = props;
  const { lay } = app.words;
  const mm = figureOf(app);
  const notes = [
    cut.whole ? lay.wholeBoard : cut.cutEnds !== "none" ? lay.cut[cut.cutEnds] : "",
    cut.ripMm !== null && cut.ripped ? lay.ripped(mm(cut.ripMm), cut.ripped) : "",
    lay.when[cut.when],
    `${lay.board} ${cut.boardId}`,
  ].filter((note) => note !== "");
  return (
    <button type="button" class="piece-key" aria-pressed={laid} disabled={busy} onClick={toggle}>
      <span class="aloud">{laid ? lay.untick(cut.id) : lay.tick(cut.id)}, </span>
      <svg class="tick" width="34" height="34" viewBox="0 0 34 34" aria-hidden="true">
        <rect x="1.5" y="1.5" width="31" height="31" />
        {laid && <path d="M7 17L14 25L28 7" />}
      </svg>
      <span class="piece-number">{number}</span>
      <span class="piece-what">
        <strong>{mm(cut.stopMm)}</strong>
        <small>{notes.join(", ")}</small>
      </span>
      <span class="piece-id">
        {cut.id}
        {laid && <small>{lay.lies}</small>}
      </span>
    </button>
  );
}

/** A tick, or the tick taken back. */
function tick(app: App, log: SiteLog, by: string, piece: string): void {
  const before = [...log.live].reverse().find((event) => event.kind === "laid" && event.piece === piece);
  if (before && log.state.laid.has(piece)) enter(app, log, by, { kind: "undo", event: before.id });
  else enter(app, log, by, { kind: "laid", piece });
}

/** A length on a card: bare millimetres, or feet and inches. */
export function figureOf(app: App): (mm: number) => string {
  return (mm) => (app.units === "imperial" ? sayLength(app.words, "imperial", mm) : app.words.write.mm(mm));
}
