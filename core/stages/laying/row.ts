import type { Piece } from "../bond/record.ts";

/**
 * The pieces of one row in the order they are laid: left to right, those cut when measured after the others of their
 * span, and of two that lie one above the other (a forked row) the lower first. Indices in, indices out.
 */
export function orderRow(pieces: readonly Piece[], row: readonly number[]): number[] {
  const plainly = [...row].sort((i, j) => {
    const a = pieces[i]!;
    const b = pieces[j]!;
    if (a.span !== b.span) return a.span - b.span;
    if (a.cutWhen !== b.cutWhen) return a.cutWhen === "measured" ? 1 : -1;
    return a.u0Um - b.u0Um || a.v0Um - b.v0Um;
  });
  const above = forks(pieces, row);
  if (above.size === 0) return plainly;
  const out: number[] = [];
  const waiting = [...plainly];
  while (waiting.length > 0) {
    const ready = waiting.findIndex((i) => !(above.get(i) ?? []).some((under) => waiting.includes(under)));
    out.push(...waiting.splice(Math.max(0, ready), 1));
  }
  return out;
}

/** For each piece of the row the pieces that lie under it. Empty in nearly every row. */
function forks(pieces: readonly Piece[], row: readonly number[]): Map<number, number[]> {
  const out = new Map<number, number[]>();
  const byU = [...row].sort((i, j) => pieces[i]!.u0Um - pieces[j]!.u0Um);
  for (let i = 0; i < byU.length; i++) {
    for (let j = i + 1; j < byU.length && pieces[byU[j]!]!.u0Um < pieces[byU[i]!]!.u1Um; j++) {
      const [upper, under] = higherFirst(pieces, byU[i]!, byU[j]!);
      const list = out.get(upper);
      if (list) list.push(under);
      else out.set(upper, [under]);
    }
  }
  return out;
}

function higherFirst(pieces: readonly Piece[], i: number, j: number): [number, number] {
  const a = pieces[i]!;
  const b = pieces[j]!;
  return a.v0Um + a.v1Um > b.v0Um + b.v1Um ? [i, j] : [j, i];
}
