/** Places along a stretch so that no place of it is further than this from one, um. Findings speak of what is near. */
const REACH_UM = 300_000;

/** The middle of a short stretch; several places, evenly spread, along a long one. Whole micrometres. */
export function stationsAlong(u0: number, u1: number): number[] {
  const count = Math.max(1, Math.ceil((u1 - u0) / (2 * REACH_UM)));
  const out: number[] = [];
  for (let i = 0; i < count; i++) out.push(Math.round(u0 + ((u1 - u0) * (2 * i + 1)) / (2 * count)));
  return out;
}
