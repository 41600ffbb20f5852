import { LINE_PITCH, line, MEDIUM, THIN, text } from "./ink.ts";
import type { Item } from "./sheet.ts";
import { wrapText } from "./text.ts";

export interface Column {
  head: string;
  widthMm: number;
  align?: "left" | "centre" | "right";
  bold?: boolean;
  /** Most lines in a cell before an ellipsis; 1 where left out. */
  lines?: number;
}
export interface TableLook {
  heightMm?: number;
  /** Least height of a row, mm. */
  rowMm?: number;
  /** Lines between the columns too. */
  ruled?: boolean;
}
export interface TableParts {
  items: Item[];
  /** Height taken from `top` downward, mm. */
  heightMm: number;
  /** How many rows fitted above `bottom`; the rest goes on the next sheet. */
  rows: number;
}

/**
 * A table on a sheet: head, then rows, each as high as its fullest cell, until `bottom` is reached.
 * An empty cell stays blank, to write in. Cost: the text that is drawn.
 */
export function table(
  x: number,
  top: number,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  bottom = 0,
  look: TableLook = {},
): TableParts {
  const height = look.heightMm ?? 2.5;
  const width = columns.reduce((sum, column) => sum + column.widthMm, 0);
  const items: Item[] = [];
  let y = top;
  const put = (cells: readonly string[], head: boolean): boolean => {
    const lines = columns.map((column, i) =>
      wrapText(
        cells[i] ?? "",
        column.widthMm - 2 * PAD,
        height,
        head || column.bold === true,
        head ? 2 : (column.lines ?? 1),
      ),
    );
    const most = Math.max(...lines.map((cell) => cell.length));
    const tall = Math.max(look.rowMm ?? 0, height + (most - 1) * LINE_PITCH * height + 2 * PAD);
    if (y - tall < bottom - 1e-9) return false;
    let left = x;
    columns.forEach((column, i) => {
      const align = column.align ?? "left";
      const at =
        align === "left" ? left + PAD : align === "right" ? left + column.widthMm - PAD : left + column.widthMm / 2;
      lines[i]!.forEach((words, k) => {
        if (words === "") return;
        items.push(
          text([at, y - PAD - height - k * LINE_PITCH * height], words, {
            heightMm: height,
            align,
            bold: head || column.bold === true,
          }),
        );
      });
      left += column.widthMm;
    });
    y -= tall;
    items.push(line("text", [x, y], [x + width, y], head ? MEDIUM : THIN));
    return true;
  };
  items.push(line("text", [x, y], [x + width, y], MEDIUM));
  let placed = 0;
  if (
    put(
      columns.map((column) => column.head),
      true,
    )
  )
    while (placed < rows.length && put(rows[placed]!, false)) placed++;
  if (look.ruled) {
    let left = x;
    for (const column of [...columns, null]) {
      items.push(line("text", [left, top], [left, y]));
      left += column?.widthMm ?? 0;
    }
  }
  return { items, heightMm: top - y, rows: placed };
}
const PAD = 1;
