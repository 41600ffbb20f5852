import { type Column, coverByColumns } from "../../solve/columns.ts";
import { boundByFunctions } from "../../solve/dff.ts";
import { bestPattern } from "../../solve/knapsack.ts";

/** A least number of boards with its proof: whole-number duals of the demands, no filling of `capacityUm` above `scale`. */
export interface Certificate {
  bins: number;
  scale: number;
  /** Demand in micrometres and its dual, ascending; demands with a dual of zero are left out. */
  duals: [demandUm: number, dual: number][];
}

const LP_DEMANDS = 320;
const COLUMNS = 2_000;
const NODES = 20_000;
const ALL_NODES = 600_000;
const PROOF_NODES = 300_000;
const SCALE = 1_000_000;

/**
 * Least number of lengths of `capacityUm` for these demands, with any number of each demand in a filling.
 * Material and dual-feasible functions first; where they stay below `reached` boards, column generation (Gilmore & Gomory
 * 1961), its duals scaled to whole numbers and then divided by the worst filling an integer knapsack finds (Farley 1990):
 * so the answer holds however far the doubles are off.
 */
export function certify(capacityUm: number, demands: readonly number[], reached: number): Certificate {
  const kinds = kindsOf(demands);
  const quick = quickly(capacityUm, kinds);
  if (quick.bins >= reached || kinds.sizes.length > LP_DEMANDS) return quick;
  const made = byColumns(capacityUm, kinds.sizes, kinds.counts);
  return made.bins > quick.bins ? made : quick;
}

/** The best of several ways to measure the same pieces: all quickly, and by columns only those that come nearest. */
export function certifyBest<By extends string>(
  capacityUm: number,
  measured: readonly { by: By; demands: readonly number[] }[],
  reached: number,
): { by: By; certificate: Certificate } {
  const tried = measured.map(({ by, demands }) => ({
    by,
    demands,
    certificate: quickly(capacityUm, kindsOf(demands)),
  }));
  let best = tried[0]!;
  for (const t of tried) if (t.certificate.bins > best.certificate.bins) best = t;
  const nearest = best.certificate.bins;
  for (const t of tried) {
    if (best.certificate.bins >= reached) break;
    if (t.certificate.bins < nearest - 1) continue;
    const certificate = certify(capacityUm, t.demands, reached);
    if (certificate.bins > best.certificate.bins) best = { ...t, certificate };
  }
  return { by: best.by, certificate: best.certificate };
}

interface Kinds {
  sizes: number[];
  counts: number[];
}
function kindsOf(demands: readonly number[]): Kinds {
  const kinds = new Map<number, number>();
  for (const d of demands) if (d > 0) kinds.set(d, (kinds.get(d) ?? 0) + 1);
  const sizes = [...kinds.keys()].sort((a, b) => a - b);
  return { sizes, counts: sizes.map((s) => kinds.get(s)!) };
}

function quickly(capacityUm: number, { sizes, counts }: Kinds): Certificate {
  if (sizes.length === 0) return { bins: 0, scale: 1, duals: [] };
  const quick = boundByFunctions(capacityUm, sizes, counts);
  return { bins: quick.bins, scale: quick.scale, duals: listed(sizes, quick.duals) };
}

function byColumns(capacityUm: number, sizes: readonly number[], counts: readonly number[]): Certificate {
  const most = sizes.map((s) => Math.floor(capacityUm / s));
  const start = sizes.map((_, i): Column => {
    const alone = new Array<number>(sizes.length).fill(0);
    alone[i] = most[i]!;
    return { cost: 1, counts: alone, tag: 0 };
  });
  let left = ALL_NODES;
  const price = (duals: readonly number[]): Column | null => {
    if (left <= 0) return null;
    const found = bestPattern(sizes, duals, most, capacityUm, 1 + 1e-9, NODES);
    left -= found.steps + sizes.length;
    return found.counts === null ? null : { cost: 1, counts: found.counts, tag: 0 };
  };
  const lp = coverByColumns(counts, start, price, COLUMNS);
  // A dual that is a whole number but for the last bits stays one; the knapsack below decides whether that was right.
  const duals = lp.duals.map((y) => Math.floor(y * SCALE + 0.01));
  const scale = Math.max(SCALE, bestPattern(sizes, duals, most, capacityUm, 0, PROOF_NODES).upper);
  let sum = 0;
  for (let i = 0; i < sizes.length; i++) sum += duals[i]! * counts[i]!;
  return { bins: Math.ceil(sum / Math.ceil(scale)), scale: Math.ceil(scale), duals: listed(sizes, duals) };
}

function listed(sizes: readonly number[], duals: readonly number[]): [number, number][] {
  const out: [number, number][] = [];
  for (let i = 0; i < sizes.length; i++) if (duals[i]! > 0) out.push([sizes[i]!, duals[i]!]);
  return out;
}
