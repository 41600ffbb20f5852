/**
 * Units. A name ends in its unit: `lengthUm`, `gapMm`, `areaMm2`, `priceMinor`.
 * Files and readings are in millimetres; set-out, fixing and cutting compute in whole micrometres,
 * where sums are exact and an orientation test needs no epsilon.
 */

/** Whole micrometres in a millimetre. */
export const UM_PER_MM = 1000;

/** Millimetres to whole micrometres, halves upward. */
export function toUm(mm: number): number {
  return Math.round(mm * UM_PER_MM);
}

/** Micrometres to millimetres; exact to 0.001 mm as a decimal number. */
export function toMm(um: number): number {
  return um / UM_PER_MM;
}

/** Rounds millimetres to the 0.001 mm a plan file holds. Never returns minus zero. */
export function roundMm(mm: number): number {
  return Math.round(mm * UM_PER_MM) / UM_PER_MM + 0;
}
