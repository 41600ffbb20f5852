import { useMemo } from "preact/hooks";
import type { PlanRecord } from "../../../core/plan/record.ts";
import type { AppWords } from "../../../words/app.ts";

/** The drawing as a table, for those who hear the page: a row of boards a line. */
export function Told({ record, words }: { record: PlanRecord | null; words: AppWords }) {
  return useMemo(() => record && <Table record={record} words={words} />, [record, words]);
}

function Table({ record, words: { board, write } }: { record: PlanRecord; words: AppWords }) {
  const rows = record.setout.rows.map(() => ({ lengths: [] as string[], width: 0, clips: 0 }));
  for (const piece of record.bond.pieces) {
    const row = rows[piece.row]!;
    row.lengths.push(write.mm(piece.lengthUm / 1000));
    row.width = Math.max(row.width, piece.widthUm / 1000);
  }
  for (const clip of record.fixing.clips) {
    const row = rows[Math.min(clip.seam, rows.length - 1)];
    if (row) row.clips++;
  }
  return (
    <div class="unseen">
      <table>
        <caption>
          {board.table(
            write.mm(rows.length),
            write.mm(record.bond.pieces.length),
            write.mm(record.cutting.boards.length),
            write.mm(record.fixing.clips.length),
          )}
        </caption>
        <thead>
          <tr>
            {board.columns.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ lengths, width, clips }, i) => (
            <tr key={i}>
              <th scope="row">{i + 1}</th>
              <td>{lengths.join(", ")}</td>
              <td>{write.mm(width)}</td>
              <td>{clips}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
