import { expect, test } from "vitest";
import { eventsOf, lastPlan, PLAN_KEY, planOf } from "./ledger.ts";
import { readProgress } from "./read.ts";
import { PROGRESS_FORMAT } from "./schema.ts";

const [A, B] = ["a".repeat(64), "b".repeat(64)];
const laid = (id: string, plan: string, piece = "p1") => ({
  kind: "laid",
  id,
  when: "2026-05-14T09:30:00Z",
  by: "Mira",
  piece,
  [PLAN_KEY]: plan,
});

test("each plan has its own events, each once, in the order they were entered", () => {
  const log = [
    laid("1", A),
    laid("2", A, "p2"),
    laid("1", B, "p7"),
    laid("2", A, "p2"),
    laid("3", B),
    laid("1", B, "p7"),
  ];
  expect(eventsOf(log, A).map(({ id }) => id)).toEqual(["1", "2"]);
  expect(eventsOf(log, B).map(({ id }) => id)).toEqual(["1", "3"]);
  expect(eventsOf(log, "c".repeat(64))).toEqual([]);
  expect(lastPlan(log)).toBe(B);
});

test("what is not an event of ours is passed over", () => {
  const strange = [null, 4, "x", [], {}, { kind: "laid", id: "1" }, { id: 1, kind: "laid", [PLAN_KEY]: A }];
  expect(eventsOf(strange, A)).toEqual([]);
  expect(lastPlan([...strange])).toBeNull();
  expect(lastPlan([laid("1", A), ...strange])).toBe(A);
  expect(planOf(laid("1", A))).toBe(A);
});

test("events with the key are read as a progress file", () => {
  const text = JSON.stringify({ format: PROGRESS_FORMAT, job: A, plan: B, events: [laid("1", B)] });
  const read = readProgress(text, "progress");
  expect(read.ok).toBe(true);
});
