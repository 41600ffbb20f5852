/** Change of length with temperature: coefficient (1/K) times length (mm) times difference (K), mm. */
export function lengthChangeMm(coefficient: number, lengthMm: number, kelvin: number): number {
  return coefficient * lengthMm * kelvin;
}

/** From the laying day to full sun, K. Common practice, no source: laid at 20 C, 60 C at the face. */
export const SUN_KELVIN = 40;
