import { readFileSync } from "node:fs";
import { type Column, coverByColumns } from "../core/solve/columns.ts";
import { bestPattern } from "../core/solve/knapsack.ts";
import { packLengths } from "../core/solve/packing.ts";
import { certify } from "../core/stages/cutting/certificate.ts";
import type { Proof } from "./proof.ts";

/** Published cutting-stock examples: stock length L, lengths w, demands d; what the sources print of the answer. */
interface Example {
  name: string;
  L: number;
  w: number[];
  d: number[];
  opt: number;
  lp?: number;
  lp_recomputed?: number;
  patterns?: number;
  waste_pct?: number;
}

const SOURCES: Record<string, { source: string; status: Proof["status"] }> = {
  "wikipedia paper": { source: "Wikipedia, Cutting stock problem: paper machine with 5600 mm rolls", status: "READ" },
  "Chvatal ch13": { source: "Chvatal, Linear Programming, 1983, ch. 13", status: "READ" },
  "JuMP tutorial": { source: "JuMP tutorial, cutting stock by column generation", status: "READ" },
  "MiniZinc cutstock": { source: "MiniZinc benchmarks, cutstock", status: "READ" },
  "AMPL book (data from memory)": {
    source: "Fourer, Gay & Kernighan, AMPL, cutting-stock chapter (data from memory)",
    status: "MEM",
  },
};
const examples = (
  JSON.parse(readFileSync(new URL("./data/checks.json", import.meta.url), "utf8")) as { csp: Example[] }
).csp;

/** Each published optimum reached by the saw plan, and met from below by the certified bound; linear programmes to 1e-6. */
export const cuttingProofs: Proof[] = examples.flatMap(proofsOf);

function proofsOf(example: Example): Proof[] {
  const { source, status } = SOURCES[example.name]!;
  // Tenths of the published unit: every published length is a whole number of them.
  const capacity = Math.round(example.L * 10);
  const sizes = example.w.map((w) => Math.round(w * 10));
  const id = `cutting-${example.name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, "-")
    .replaceAll(/^-|-$/g, "")}`;
  const packing = packLengths(
    [{ length: capacity, cost: 1, supply: null }],
    sizes.map((length, i) => ({ length, count: example.d[i]! })),
    0,
  );
  const demands = sizes.flatMap((s, i) => new Array<number>(example.d[i]!).fill(s));
  const whole = "a count: exact";
  const out: Proof[] = [
    {
      id: `${id}-primal`,
      claim: `${example.name}: lengths used`,
      source,
      status,
      published: example.opt,
      ours: packing.cost,
      allowed: 0,
      unit: "pc",
      why: whole,
    },
    {
      id: `${id}-bound`,
      claim: `${example.name}: least number certified by whole-number duals`,
      source,
      status,
      published: example.opt,
      ours: certify(capacity, demands, example.opt).bins,
      allowed: 0,
      unit: "pc",
      why: whole,
    },
  ];
  const lp = example.lp ?? example.lp_recomputed;
  if (lp !== undefined)
    out.push({
      id: `${id}-lp`,
      claim: `${example.name}: value of the linear programme`,
      source: example.lp === undefined ? `${source}; value recomputed from the published data` : source,
      status: example.lp === undefined ? "RECOMPUTED" : status,
      published: lp,
      ours: programmeValue(capacity, sizes, example.d),
      allowed: 1e-6,
      unit: "pc",
      why: "doubles, and the digits given",
    });
  if (example.patterns !== undefined)
    out.push({
      id: `${id}-patterns`,
      claim: `${example.name}: different patterns that fit a roll`,
      source,
      status,
      published: example.patterns,
      ours: patternCount(capacity, sizes),
      allowed: 0,
      unit: "pc",
      why: whole,
    });
  if (example.waste_pct !== undefined) {
    const cut = demands.reduce((a, b) => a + b, 0);
    out.push({
      id: `${id}-waste`,
      claim: `${example.name}: least waste`,
      source,
      status,
      published: example.waste_pct,
      ours: 100 * (1 - cut / (packing.cost * capacity)),
      allowed: 0.0005,
      unit: "%",
      why: "the source gives three decimals",
    });
  }
  return out;
}

/** The column-generation programme with any number of each length in a pattern. */
function programmeValue(capacity: number, sizes: readonly number[], counts: readonly number[]): number {
  const kinds = new Map<number, number>();
  sizes.forEach((s, i) => {
    kinds.set(s, (kinds.get(s) ?? 0) + counts[i]!);
  });
  const lengths = [...kinds.keys()];
  const most = lengths.map((s) => Math.floor(capacity / s));
  const start = lengths.map(
    (_, i): Column => ({ cost: 1, counts: lengths.map((_l, j) => (i === j ? most[i]! : 0)), tag: 0 }),
  );
  const price = (duals: readonly number[]): Column | null => {
    const found = bestPattern(lengths, duals, most, capacity, 1 + 1e-9);
    return found.counts === null ? null : { cost: 1, counts: found.counts, tag: 0 };
  };
  return coverByColumns([...kinds.values()], start, price, 5_000).value;
}

/** Ways to fill a length with at least one item, counted one by one. */
function patternCount(capacity: number, sizes: readonly number[]): number {
  const count = (from: number, room: number): number => {
    if (from === sizes.length) return 1;
    let sum = 0;
    for (let n = 0; n * sizes[from]! <= room; n++) sum += count(from + 1, room - n * sizes[from]!);
    return sum;
  };
  return count(0, capacity) - 1;
}
