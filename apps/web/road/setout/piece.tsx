import type { PlanRecord } from "../../../../core/plan/record.ts";
import { cutsOf } from "../../../../papers/pieces.ts";
import { BoardPicture } from "../cut/board-picture.tsx";
import type { App } from "../step.ts";

/** The picked board: where it comes from, what holds it, how it is cut; and the joints of its row kept or let go. */
export function PiecePicked({ app }: { app: App }) {
  const { setout } = app.words;
  const hit = app.tapped?.hit;
  const { record } = app;
  if (hit?.kind !== "piece" || !record?.bond.pieces[hit.index])
    return (
      <>
        <p class="small">{setout.piece.ask}</p>
        <LockedRows app={app} />
      </>
    );
  return <Piece app={app} record={record} index={hit.index} />;
}

function Piece({ app, record, index }: { app: App; record: PlanRecord; index: number }) {
  const { setout, write } = app.words;
  const words = setout.piece;
  const piece = record.bond.pieces[index]!;
  const cut = cutsOf(record)[index]!;
  const board = record.cutting.boards[record.cutting.boardOf[index]!]!;
  const row = String(piece.row + 1);
  const clips = record.fixing.clips.filter(({ holds }) => holds.includes(index)).length;
  const screws = record.fixing.screws.filter((screw) => screw.piece === index).length;
  const held = record.fixing.heldBy[index]!;
  const facts: [string, string][] = [
    [words.size, words.sizeOf(write.mm(piece.lengthUm / 1000), write.mm(piece.widthUm / 1000))],
    [
      words.from,
      cut.whole
        ? words.whole(board.id)
        : words.fromBoard(board.id, write.mm(board.lengthUm / 1000), write.mm(cut.atMm), cut.turned),
    ],
    [words.upper, words.edge(words.edges[piece.edges[1]], words.held[held[1]])],
    [words.lower, words.edge(words.edges[piece.edges[0]], words.held[held[0]])],
    ["", [clips > 0 && words.clips(clips), screws > 0 && words.screws(screws)].filter(Boolean).join(", ")],
    [words.ends, words.endsCut[cut.cutEnds]],
    [words.when, words.whenCut[cut.whole ? "not" : cut.when]],
  ];
  return (
    <section class="picked">
      <h3>{words.head(row, piece.id)}</h3>
      <BoardPicture record={record} board={board} marked={index} label={words.picture(board.id, board.parts.length)} />
      <dl class="facts">
        {facts
          .filter(([, fact]) => fact !== "")
          .map(([name, fact]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{fact}</dd>
            </div>
          ))}
      </dl>
      <Lock app={app} record={record} row={piece.row} />
      <LockedRows app={app} />
    </section>
  );
}

function Lock({ app, record, row }: { app: App; record: PlanRecord; row: number }) {
  const words = app.words.setout.piece;
  const locked = app.job.bond?.locked ?? [];
  const joints = record.bond.joints.filter((joint) => joint.row === row).map(({ uUm }) => uUm / 1000);
  const name = String(row + 1);
  if (locked.some((one) => one.row === row))
    return (
      <button type="button" onClick={() => setLocked(app, (list) => list.filter((one) => one.row !== row))}>
        {words.unlock(name)}
      </button>
    );
  if (joints.length === 0) return <p class="small">{words.noJoints(name)}</p>;
  return (
    <button
      type="button"
      onClick={() => setLocked(app, (list) => [...list, { row, joints }].sort((a, b) => (a.row ?? 0) - (b.row ?? 0)))}
    >
      {words.lock(name)}
    </button>
  );
}

function LockedRows({ app }: { app: App }) {
  const words = app.words.setout.piece;
  const locked = app.job.bond?.locked ?? [];
  if (locked.length === 0) return null;
  return (
    <p class="locked">
      <span>{words.lockedRows(locked.map(({ row }) => (row ?? 0) + 1).join(", "))}</span>
      <button type="button" onClick={() => setLocked(app, () => [])}>
        {words.unlockAll}
      </button>
    </p>
  );
}

type Locked = NonNullable<NonNullable<App["job"]["bond"]>["locked"]>;

/** One edit: which rows keep their joints; the key goes when none does. */
function setLocked(app: App, change: (list: Locked) => Locked): void {
  app.edit("bond", (job) => {
    const { locked, ...bond } = job.bond ?? {};
    const next = change(locked ?? []);
    job.bond = next.length > 0 ? { ...bond, locked: next } : bond;
  });
}
