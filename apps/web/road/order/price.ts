import type { JobDraft } from "../../../../core/edits/draft.ts";

/** Where the price of a take-off item stands: with the board's length, with the trim, by the litre of a material, else in `prices`. */
export function priceOf(item: string, unit: string): "board" | "trim" | "litre" | "prices" {
  if (item.startsWith("board-")) return "board";
  if (/^trim-\d/.test(item)) return "trim";
  return item.startsWith("fill-") || unit === "bag" ? "litre" : "prices";
}

/** Writes a price, minor units, to the place it is read from; null takes it away where that can be. */
export function setPrice(job: JobDraft, item: string, minor: number | null): void {
  const place = priceOf(item, "pc");
  if (place === "board") {
    const length = Number(item.slice("board-".length));
    job.board = {
      ...job.board,
      lengths: (job.board?.lengths ?? []).map((one) =>
        one.length === length && minor !== null ? { ...one, price: minor } : one,
      ),
    };
  } else if (place === "trim") {
    if (minor !== null) job.trim = { ...job.trim, price: minor };
  } else {
    const prices = { ...job.prices };
    // A price of the family ("fixing" for "fixing-45") is changed where it stands, for all its members.
    const family = item.replace(/-\d+$/, "");
    const key = prices[item] === undefined && prices[family] !== undefined ? family : item;
    if (minor === null) delete prices[key];
    else prices[key] = minor;
    job.prices = prices;
  }
}
