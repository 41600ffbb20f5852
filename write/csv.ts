import Papa from "papaparse";
import type { Grid, GridCell } from "../papers/grid.ts";

/**
 * A grid as CSV (RFC 4180): UTF-8 with a byte order mark so that spreadsheets read it as such, comma, CRLF, numbers with
 * a decimal point and their column's decimals. Text that a spreadsheet would take for a formula gets an apostrophe before it.
 */
export function writeCsv(grid: Grid): Uint8Array {
  const cell = (value: GridCell, column: number): string => {
    if (value === null) return "";
    if (typeof value === "string") return neutral(value);
    const fixed = value.toFixed(grid.columns[column]!.decimals);
    return /[1-9]/.test(fixed) ? fixed : fixed.replace("-", "");
  };
  const rows = [grid.columns.map((column) => neutral(column.head)), ...grid.rows.map((row) => row.map(cell))];
  return new TextEncoder().encode(`\ufeff${Papa.unparse(rows, { newline: "\r\n" })}\r\n`);
}

/**
 * Text that starts like a formula, made harmless: = + - @ and their full-width kin, also behind white space, and a
 * leading tab or line end. Null characters are dropped.
 */
export function neutral(text: string): string {
  const clean = text.replaceAll("\0", "");
  return /^(\s*[=+\-@\uff1d\uff0b\uff0d\uff20]|[\t\r\n])/.test(clean) ? `'${clean}` : clean;
}
