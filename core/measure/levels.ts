/** The grid of spot levels: which point comes next, and what a short staff reading means. All mm. */
type Pt = readonly [x: number, y: number];

/** Nearest to the outline that a staff is held. */
const EDGE_MM = 50;
const POINTS_MAX = 2_000;

/**
 * Points of a grid inside a ring (counter-clockwise or not, straight edges), to and fro as one walks, `spacing` apart at most:
 * the pitch is evened out so that the outer lines lie along the edges. Points in `holes` are left out.
 */
export function proposeGrid(ring: readonly Pt[], holes: readonly (readonly Pt[])[], spacingMm: number): Pt[] {
  if (ring.length < 3 || !(spacingMm > 0)) return [];
  const xs = spread(
    ring.map(([x]) => x),
    spacingMm,
  );
  const ys = spread(
    ring.map(([, y]) => y),
    spacingMm,
  );
  if (xs.length * ys.length > POINTS_MAX) return [];
  const out: Pt[] = [];
  ys.forEach((y, row) => {
    const line = row % 2 === 0 ? xs : [...xs].reverse();
    for (const x of line)
      if (insideRing(ring, [x, y]) && !holes.some((hole) => insideRing(hole, [x, y]))) out.push([x, y]);
  });
  return out;
}

function spread(values: readonly number[], spacing: number): number[] {
  const [least, most] = [Math.min(...values) + EDGE_MM, Math.max(...values) - EDGE_MM];
  const steps = Math.max(1, Math.ceil((most - least) / spacing - 1e-9));
  return Array.from({ length: steps + 1 }, (_, i) => Math.round(least + ((most - least) * i) / steps));
}

/** The first grid point without a reading near it; null where all are read. */
export function nextPoint(
  grid: readonly Pt[],
  levels: readonly (readonly [number, number, number])[],
  nearMm: number,
): Pt | null {
  for (const at of grid) {
    const read = levels.some(([x, y]) => Math.abs(x - at[0]) <= nearMm && Math.abs(y - at[1]) <= nearMm);
    if (!read) return at;
  }
  return null;
}

export type ReadStaff =
  | { ok: true; mm: number; completed: boolean }
  | { ok: false; why: "empty" | "unclear" | "ambiguous"; readings: number[] };

/** Two ways to complete a reading count as alike where they lie this near to equally far from the last one. */
const ALIKE_MM = 200;

/**
 * A staff reading in whole millimetres (or with one decimal). Three digits after a full reading are its last three: the
 * thousands are those that come nearest to the last reading. Where two come about as near, it says so.
 */
export function readStaff(text: string, lastMm: number | null): ReadStaff {
  const tidy = text.replace(",", ".").trim();
  if (tidy === "") return { ok: false, why: "empty", readings: [] };
  if (!/^\d{1,5}(\.\d?)?$/.test(tidy)) return { ok: false, why: "unclear", readings: [] };
  const typed = Number(tidy);
  const digits = tidy.split(".")[0]!.length;
  if (digits !== 3 || lastMm === null) return { ok: true, mm: typed, completed: false };
  const near = Math.floor(lastMm / 1000) * 1000;
  const ways = [near - 1000, near, near + 1000].map((thousand) => thousand + typed).filter((mm) => mm >= 0);
  ways.sort((a, b) => Math.abs(a - lastMm) - Math.abs(b - lastMm));
  const [best, other] = ways as [number, number | undefined];
  if (other !== undefined && Math.abs(other - lastMm) - Math.abs(best - lastMm) < ALIKE_MM)
    return { ok: false, why: "ambiguous", readings: [best, other].sort((a, b) => a - b) };
  return { ok: true, mm: best, completed: best !== typed };
}

/** Even-odd. */
export function insideRing(ring: readonly Pt[], [x, y]: Pt): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[i]!;
    const [bx, by] = ring[j]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}
