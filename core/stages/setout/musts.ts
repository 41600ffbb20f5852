/** A closed interval of u that must hold the middle of a joint. */
export interface Interval {
  from: number;
  to: number;
  why: "web" | "enclosed";
  name: string;
}

/** What is left of a span for the middles of joints once open intervals are barred: closed intervals, ascending. */
export function freePlaces(
  u0: number,
  u1: number,
  barred: readonly { from: number; to: number }[],
): { from: number; to: number }[] {
  const sorted = [...barred].sort((a, b) => a.from - b.from);
  const out: { from: number; to: number }[] = [];
  let at = u0;
  for (const bar of sorted) {
    if (bar.to <= at) continue;
    if (bar.from >= at) out.push({ from: at, to: Math.min(bar.from, u1) });
    at = Math.max(at, bar.to);
    if (at > u1) break;
  }
  if (at <= u1) out.push({ from: at, to: u1 });
  return out.filter((i) => i.to >= i.from);
}

/**
 * Which of the must-places (indices) cannot all have a joint with pieces of at least `minPiece`: taken by their right ends,
 * each place not yet served gets the rightmost joint it allows; one that allows none is unmet. Stagger is left to the bond.
 */
export function meetMusts(
  musts: readonly Interval[],
  free: readonly { from: number; to: number }[],
  span: { u0: number; u1: number; minPiece: number; end: number },
): Set<number> {
  const unmet = new Set<number>();
  const order = musts.map((_, i) => i).sort((a, b) => musts[a]!.to - musts[b]!.to || musts[a]!.from - musts[b]!.from);
  const least = span.u0 + span.minPiece + span.end / 2;
  const most = span.u1 - span.minPiece - span.end / 2;
  let last = Number.NEGATIVE_INFINITY;
  for (const i of order) {
    const must = musts[i]!;
    if (last >= must.from && last <= must.to) continue;
    const from = Math.max(must.from, least, last + span.minPiece + span.end);
    const to = Math.min(must.to, most);
    let best: number | null = null;
    for (const place of free) {
      const a = Math.max(place.from, from);
      const b = Math.min(place.to, to);
      if (b >= a) best = Math.floor(b) >= a ? Math.floor(b) : b;
    }
    if (best === null) unmet.add(i);
    else last = best;
  }
  return unmet;
}
