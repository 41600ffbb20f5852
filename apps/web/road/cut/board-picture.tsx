import type { PlanRecord } from "../../../../core/plan/record.ts";
import type { Board } from "../../../../core/stages/cutting/record.ts";
import "./board-picture.css";

/** A stock board with the parts cut from it: the marked one in chalk, what is left over hatched by its dashed outline. */
export function BoardPicture(props: { record: PlanRecord; board: Board; marked: number | null; label: string }) {
  const { record, board, marked, label } = props;
  const length = board.lengthUm / 1000;
  const width = record.setout.boardWidthUm / 1000;
  const pad = 4;
  const longest = record.job.board.lengths.reduce((most, one) => Math.max(most, one.length), length);
  return (
    <svg
      class="board-picture"
      role="img"
      aria-label={label}
      viewBox={`${-pad} ${-pad} ${longest + 2 * pad} ${width + 2 * pad}`}
    >
      <rect class="stock" x={0} y={0} width={length} height={width} />
      {board.offcuts.map(({ at, size }) => (
        <rect
          key={`${at} ${size}`}
          class="rest"
          x={at[0] / 1000}
          y={width - (at[1] + size[1]) / 1000}
          width={size[0] / 1000}
          height={size[1] / 1000}
        />
      ))}
      {board.parts.map((part) => (
        <path
          key={part.piece}
          class={part.piece === marked ? "part marked" : "part"}
          d={
            part.ring
              ? `M${part.ring.map(([x, y]) => `${x / 1000} ${width - y / 1000}`).join("L")}Z`
              : rectangle(part.at, part.size, width)
          }
        />
      ))}
      {board.parts.map((part) => {
        const piece = record.bond.pieces[part.piece]!;
        if (part.size[0] / 1000 < 200) return null;
        return (
          <text
            key={part.piece}
            x={(part.at[0] + part.size[0] / 2) / 1000}
            y={width - (part.at[1] + part.size[1] / 2) / 1000}
          >
            {piece.id}
          </text>
        );
      })}
    </svg>
  );
}

function rectangle(at: readonly [number, number], size: readonly [number, number], width: number): string {
  const [x0, x1] = [at[0] / 1000, (at[0] + size[0]) / 1000];
  const [y0, y1] = [width - (at[1] + size[1]) / 1000, width - at[1] / 1000];
  return `M${x0} ${y0}H${x1}V${y1}H${x0}Z`;
}
