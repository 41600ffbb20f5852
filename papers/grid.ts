/** A table as data: written as CSV or XLSX (write/), where numbers stay numbers. */
export interface GridColumn {
  head: string;
  /** text is always text, whatever it looks like; numbers carry their decimals. */
  kind: "text" | "number";
  decimals: number;
  /** Width in characters, for a spreadsheet. */
  width: number;
}
export type GridCell = string | number | null;
export interface Grid {
  /** File-safe name without an ending. */
  name: string;
  title: string;
  columns: GridColumn[];
  rows: GridCell[][];
}

export function textColumn(head: string, width = 16): GridColumn {
  return { head, kind: "text", decimals: 0, width };
}

export function numberColumn(head: string, decimals = 0, width = 10): GridColumn {
  return { head, kind: "number", decimals, width };
}
