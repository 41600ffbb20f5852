import { expect, test } from "vitest";
import { jobAtEvent } from "./at-event.ts";
import type { Json } from "./edit.ts";
import type { LogRecord } from "./log.ts";

const project = "one";
const title = (id: string, was: string, now: string): LogRecord => ({
  id,
  project,
  kind: "edit",
  edit: { name: "title", changes: [{ kind: "set", at: ["title"], was, now }] },
});
const event = (id: string, plan: string): LogRecord => ({ id, project, kind: "event", event: { plan } });
const of = (plan: string) => (one: Json) => (one as { plan: string }).plan === plan;

test("the job is the one that stood when the last such event was entered", () => {
  const records: LogRecord[] = [
    { id: "0", project, kind: "start", job: { title: "a" } },
    event("1", "A"),
    title("2", "a", "b"),
    event("3", "B"),
    { id: "4", project, kind: "undo", of: "2" },
    event("5", "A"),
    title("6", "a", "c"),
  ];
  expect(jobAtEvent(records, of("A"))).toEqual({ title: "a" });
  expect(jobAtEvent(records, of("B"))).toEqual({ title: "b" });
  expect(jobAtEvent(records, of("C"))).toBeNull();
  expect(jobAtEvent([], of("A"))).toBeNull();
});
