import { expect, test } from "vitest";
import type { JobDraft } from "../../../../core/edits/draft.ts";
import { loadJob } from "../../../../core/plan/load.ts";
import { makePlan } from "../../../../core/plan/make.ts";
import { exampleJob } from "../../blank.ts";
import { priceOf, setPrice } from "./price.ts";

function priced(job: JobDraft): Map<string, number | null> {
  const loaded = loadJob(JSON.stringify(job), "job");
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  return new Map(makePlan(loaded.value).takeoff.items.map(({ item, price }) => [item, price]));
}

test("a price written in the list is the price the take-off reads, for every item that is not sold by the litre", () => {
  const job = exampleJob();
  const items = [...priced(job).keys()].filter((item) => priceOf(item, "pc") !== "litre");
  expect(items.length).toBeGreaterThan(6);
  items.forEach((item, i) => void setPrice(job, item, 1000 + i));
  const after = priced(job);
  const family = (item: string) => item.replace(/-\d+$/, "");
  items.forEach((item, i) => {
    // Fixings share the price of their family: the one written last holds for all.
    const last = lastIndex(items, (other) => family(other) === family(item) && item.startsWith("fixing-"));
    expect([item, after.get(item)]).toEqual([item, 1000 + (last < 0 ? i : last)]);
  });
});

test("a price taken away is named as missing; a board's and a trim's stay", () => {
  const job = exampleJob();
  for (const item of ["clip-end", "board-1500", "trim-2400"]) setPrice(job, item, null);
  const after = priced(job);
  expect(after.get("clip-end")).toBeNull();
  expect(after.get("board-1500")).toBe(2140);
  expect(after.get("trim-2400")).toBe(1450);
});

function lastIndex(items: readonly string[], is: (item: string) => boolean): number {
  return items.reduce((last, item, i) => (is(item) ? i : last), -1);
}
