import { useMemo, useState } from "preact/hooks";
import type { PlanRecord } from "../../../../core/plan/record.ts";
import { type Cut, cutsOf } from "../../../../papers/pieces.ts";
import { fromUv, rowsOf } from "../../board/rows.ts";
import type { App, StepPanel } from "../step.ts";
import { BoardPicture } from "./board-picture.tsx";
import "./panel.css";
import { groupsOf } from "./stops.ts";

/** The saw list by stop, the boards one by one, and what the lower bound says. */
const Panel: StepPanel = ({ app }) => {
  const { cut } = app.words;
  const { record } = app;
  const cuts = useMemo(() => (record ? cutsOf(record) : []), [record]);
  if (!record) return <p>{cut.noRecord}</p>;
  const touched = cuts.filter((one) => !one.whole);
  return (
    <div class="cut">
      <Bound app={app} record={record} />
      <h3>{cut.stops}</h3>
      <p class="small">{cut.stopsHint}</p>
      <Stops app={app} record={record} cuts={touched.filter(({ when }) => when === "ahead")} name={cut.stops} />
      <h3>{cut.measured}</h3>
      <p class="small">{cut.measuredHint}</p>
      <Stops app={app} record={record} cuts={touched.filter(({ when }) => when === "measured")} name={cut.measured} />
      <Boards app={app} record={record} cuts={cuts} />
    </div>
  );
};
export default Panel;

function Bound({ app, record }: { app: App; record: PlanRecord }) {
  const { cut, write } = app.words;
  const { boards, boardsAtLeast, bound, cuts, rips, wasteUm2 } = record.cutting;
  const bought = boards.reduce((sum, { lengthUm }) => sum + lengthUm, 0) * record.setout.boardWidthUm;
  const met = boards.length <= boardsAtLeast;
  return (
    <section>
      <p class="first-line">{cut.boards(write.mm(boards.length), write.mm(record.bond.pieces.length))}</p>
      <p>
        {cut.bound[met ? "met" : "over"](write.mm(boards.length), write.mm(boardsAtLeast))} {cut.scope[bound.scope]}
      </p>
      <p>{cut.saw(write.mm(cuts), write.mm(rips))}</p>
      {bought > 0 && <p>{cut.waste(write.m2(wasteUm2 / 1e6), write.percent((wasteUm2 / bought) * 100))}</p>}
    </section>
  );
}

function Stops({ app, record, cuts, name }: { app: App; record: PlanRecord; cuts: readonly Cut[]; name: string }) {
  const { cut } = app.words;
  const { columns } = cut;
  if (cuts.length === 0) return <p>{cut.none}</p>;
  return (
    <table class="stops" aria-label={name}>
      <thead>
        <tr>
          <th scope="col">{columns.stop}</th>
          <th scope="col">{columns.rip}</th>
          <th scope="col">{columns.count}</th>
          <th scope="col">{columns.pieces}</th>
        </tr>
      </thead>
      <tbody>
        {groupsOf(cuts).map((group) => (
          <tr key={group[0]!.id}>
            <th scope="row">{saw(app, record, group[0]!.stopMm)}</th>
            <td>{group[0]!.ripMm === null ? "" : saw(app, record, group[0]!.ripMm)}</td>
            <td>{group.length}</td>
            <td>
              <Shape app={app} cut={group[0]!} />
              {group.map((one) => (
                <button
                  key={one.id}
                  type="button"
                  class="piece-key"
                  aria-label={cut.show(one.id)}
                  onClick={() => show(app, record, one.piece)}
                >
                  {one.id}
                </button>
              ))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What the stop alone does not tell: lengths along both edges of a slanting piece. */
function Shape({ app, cut: one }: { app: App; cut: Cut }) {
  const { cut, write } = app.words;
  if (one.shape === "square") return null;
  return (
    <span class="shape">
      {one.shape === "shaped" ? cut.shaped : cut.slanting(write.mm(one.nearMm), write.mm(one.farMm))}
    </span>
  );
}

/** A saw's figure: whole millimetres unless the job cuts finer. */
function saw({ words: { write } }: App, record: PlanRecord, mm: number): string {
  return write.number(mm, record.job.cut.cutTo % 1 === 0 && mm % 1 === 0 ? 0 : 1);
}

/** Shows a piece on the drawing, picked: because the fitter asked for it. */
function show(app: App, record: PlanRecord, piece: number): void {
  const { u0Um, u1Um, v0Um, v1Um } = record.bond.pieces[piece]!;
  const at = fromUv(rowsOf(record), (u0Um + u1Um) / 2000, (v0Um + v1Um) / 2000);
  app.pick(at, { kind: "piece", index: piece });
  app.show(at);
}

/** Boards shown before more are asked for. */
const FIRST = 12;

function Boards({ app, record, cuts }: { app: App; record: PlanRecord; cuts: readonly Cut[] }) {
  const { cut } = app.words;
  const [count, setCount] = useState(FIRST);
  const hit = app.tapped?.hit;
  const marked = hit?.kind === "piece" ? hit.index : null;
  const all = record.cutting.boards.filter(({ parts }) => parts.length > 1 || !cuts[parts[0]!.piece]!.whole);
  // The board of the picked piece comes first: it is what was asked for.
  const first = marked === null ? undefined : all.find(({ parts }) => parts.some(({ piece }) => piece === marked));
  const shown = [...(first ? [first] : []), ...all.filter((board) => board !== first)].slice(0, count);
  return (
    <section>
      <h3>{cut.byBoard}</h3>
      <p class="small">{cut.byBoardHint(record.cutting.boards.length - all.length)}</p>
      <ul class="plain">
        {shown.map((board) => (
          <li key={board.id} class="one-board">
            <strong>{cut.board(board.id, saw(app, record, board.lengthUm / 1000))}</strong>
            <BoardPicture
              record={record}
              board={board}
              marked={marked}
              label={cut.picture(board.id, board.parts.length)}
            />
            <p>
              {board.parts.map(({ piece }) => {
                const one = cuts[piece]!;
                const words = cut.part(
                  one.id,
                  saw(app, record, one.stopMm),
                  one.ripMm === null ? null : saw(app, record, one.ripMm),
                );
                return (
                  <button key={one.id} type="button" class="piece-key" onClick={() => show(app, record, piece)}>
                    {words}
                  </button>
                );
              })}
            </p>
            <p class="small">
              {cut.rest}:{" "}
              {board.offcuts.length === 0
                ? cut.restNone
                : board.offcuts
                    .map(({ size }) => `${app.words.write.mm(size[0] / 1000)} × ${app.words.write.mm(size[1] / 1000)}`)
                    .join(", ")}
            </p>
          </li>
        ))}
      </ul>
      {all.length > count && (
        <button type="button" onClick={() => setCount(count + 50)}>
          {cut.more(Math.min(50, all.length - count))}
        </button>
      )}
    </section>
  );
}
