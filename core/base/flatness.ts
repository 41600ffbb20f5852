/** Flatness limits that grow with the distance measured over, as standards print them: a few columns, straight between. */
export interface FlatnessTable {
  /** Ascending distances, m, and the limit at each, mm. */
  lengthsM: readonly number[];
  limitsMm: readonly number[];
}

/**
 * Limit for a distance, mm: straight between the columns, rounded to whole millimetres, halves up; beyond the last
 * column its limit. Rule of reading: DIN 18202 table 3 (seen on a secondary page).
 */
export function flatnessLimitMm(table: FlatnessTable, lengthM: number): number {
  const { lengthsM, limitsMm } = table;
  let i = 0;
  while (i + 2 < lengthsM.length && lengthsM[i + 1]! < lengthM) i++;
  const within = Math.max(lengthsM[0]!, Math.min(lengthM, lengthsM.at(-1)!));
  const f = (within - lengthsM[i]!) / (lengthsM[i + 1]! - lengthsM[i]!);
  return Math.floor(limitsMm[i]! + f * (limitsMm[i + 1]! - limitsMm[i]!) + 0.5 + 1e-9);
}
