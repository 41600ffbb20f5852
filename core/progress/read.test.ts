import { expect, test } from "vitest";
import { checkEvents, readProgress } from "./read.ts";
import type { ProgressEvent } from "./schema.ts";

const undos = (n: number): ProgressEvent[] =>
  Array.from({ length: n }, (_, i) => ({
    id: `e${i}`,
    when: "2026-05-14T09:30:00Z",
    by: "A",
    kind: "undo",
    event: `zz${i}`,
  }));

/** Looking up every one of them would take 10^10 steps: the test's own time limit is what it must keep. */
test("a hundred thousand undos of nothing are all told of, the first with the nearest name", () => {
  const found = checkEvents(undos(100_000));
  expect(found.length).toBe(100_000);
  expect(found.every((one) => one.code === "undoOfNothing")).toBe(true);
  const text = JSON.stringify({
    format: "rowline/progress@1",
    job: "0".repeat(64),
    plan: "0".repeat(64),
    events: undos(100_000),
  });
  const read = readProgress(text, "progress.json");
  expect(read.ok).toBe(false);
}, 15_000);
