/** A row as people count: files count from 0, papers and sentences from 1. */
export function rowNumber(row: number): string {
  return String(row + 1);
}
