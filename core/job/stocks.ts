import { toUm } from "../base/units.ts";
import type { Stock } from "../solve/bins.ts";
import type { BoardLength, Job } from "./job.ts";

/** Next to nothing, in the unit of the prices: what lies in the yard goes before what is bought, the shorter first. */
const OWNED_COST_A_UM = 1e-12;

/** Boards of a length already in the fitter's yard; they are counted inside `stock` where that is given. */
export function ownedOf({ owned, stock }: BoardLength): number {
  return Math.min(owned ?? 0, stock ?? Number.POSITIVE_INFINITY);
}

/**
 * The board's lengths as stock to cut from, um, in the job's order: by price, or without any price by length. A length of
 * which some lie in the yard is two: those for next to nothing, and the rest. `of`: the job's length of each.
 * Of one length alone fewest boards are least bought, whoever owns them: it stays whole.
 */
export function boardStocks({ board: { lengths } }: Job): { stocks: Stock[]; of: number[] } {
  const priced = lengths.some((l) => l.price > 0);
  const stocks: Stock[] = [];
  const of: number[] = [];
  lengths.forEach((l, i) => {
    const length = toUm(l.length);
    const owned = lengths.length === 1 ? 0 : ownedOf(l);
    if (owned > 0) {
      stocks.push({ length, cost: length * OWNED_COST_A_UM, supply: owned });
      of.push(i);
    }
    const supply = l.stock === null ? null : l.stock - owned;
    if (owned > 0 && supply === 0) return;
    stocks.push({ length, cost: priced ? Math.max(l.price, 1e-3) : length, supply });
    of.push(i);
  });
  return { stocks, of };
}
