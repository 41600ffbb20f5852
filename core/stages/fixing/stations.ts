/**
 * Places along a stretch so that no place of it is further than `reach` from one: the middle of a short stretch, several,
 * evenly spread, along a long one. Whole micrometres. Findings speak only of what is near them.
 */
export function stationsAlong(u0: number, u1: number, reach: number): number[] {
  const count = Math.max(1, Math.ceil((u1 - u0) / (2 * reach)));
  const out: number[] = [];
  for (let i = 0; i < count; i++) out.push(Math.round(u0 + ((u1 - u0) * (2 * i + 1)) / (2 * count)));
  return out;
}
