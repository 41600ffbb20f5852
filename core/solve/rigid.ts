/**
 * Whether a net of distances holds its points (in the plane), and which points hang loose. The null space of the rigidity
 * matrix at a generic place is carried along and cut by one row after another, so a question costs O(points x freedoms).
 * Generic rigidity: a special place (three points in a line) may be weaker; the adjustment itself finds that out.
 */
export interface Freedoms {
  points: number;
  /** Each a small motion of all points, x and y in turn; together they span all motions the ties allow. */
  motions: Float64Array[];
  /** The generic place. */
  xy: Float64Array;
}

const NOTHING = 1e-9;

/** All motions of points no tie holds. */
export function freePoints(points: number): Freedoms {
  const motions = Array.from({ length: 2 * points }, (_, i) => {
    const motion = new Float64Array(2 * points);
    motion[i] = 1;
    return motion;
  });
  let state = 7_919;
  const xy = Float64Array.from({ length: 2 * points }, () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  });
  return { points, motions, xy };
}

/** How fast each motion would stretch the tie between two points. */
export function stretch({ motions, xy }: Freedoms, a: number, b: number): number[] {
  const [dx, dy] = [xy[2 * b]! - xy[2 * a]!, xy[2 * b + 1]! - xy[2 * a + 1]!];
  return motions.map((m) => dx * (m[2 * b]! - m[2 * a]!) + dy * (m[2 * b + 1]! - m[2 * a + 1]!));
}

/** Takes away the motions a tie forbids; false where it forbids nothing new. */
export function tieUp(free: Freedoms, a: number, b: number): boolean {
  return forbid(free, stretch(free, a, b));
}

function forbid(free: Freedoms, rates: readonly number[]): boolean {
  let pivot = -1;
  rates.forEach((rate, k) => {
    if (Math.abs(rate) > (pivot < 0 ? NOTHING : Math.abs(rates[pivot]!))) pivot = k;
  });
  if (pivot < 0) return false;
  const gone = free.motions[pivot]!;
  free.motions.forEach((motion, k) => {
    if (k === pivot) return;
    const share = rates[k]! / rates[pivot]!;
    if (share === 0) return;
    for (let i = 0; i < motion.length; i++) motion[i] = motion[i]! - share * gone[i]!;
    scaleDown(motion);
  });
  free.motions.splice(pivot, 1);
  return true;
}

/** Keeps a motion's largest entry near one, so that "nothing" keeps its meaning. */
function scaleDown(motion: Float64Array): void {
  let most = 0;
  for (const one of motion) most = Math.max(most, Math.abs(one));
  if (most > 0) for (let i = 0; i < motion.length; i++) motion[i] = motion[i]! / most;
}

/** Points that keep their distance to both ends of a tie, and so move with it as one body. */
export function bodyOf(free: Freedoms, a: number, b: number): number[] {
  const still = (p: number, q: number): boolean =>
    p === q || stretch(free, p, q).every((rate) => Math.abs(rate) < 1e-7);
  if (!still(a, b)) return [a];
  return Array.from({ length: free.points }, (_, p) => p).filter((p) => still(a, p) && still(b, p));
}
