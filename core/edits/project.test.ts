import { expect, test } from "vitest";
import { diffEdit } from "./diff.ts";
import type { Json } from "./edit.ts";
import { EMPTY, foldRecord, type LogRecord } from "./log.ts";
import { findIn, projectText } from "./project.ts";

const first: Json = {
  format: "rowline/job@1",
  title: "Yard",
  site: {
    outline: [
      [0, 0],
      [9, 0],
      [9, 9],
    ],
  },
};
const second: Json = { ...(first as object), title: "Back yard" };
const log: LogRecord[] = [
  { id: "0", project: "p", kind: "start", job: first },
  { id: "1", project: "p", kind: "edit", edit: diffEdit("title", first, second)! },
  { id: "2", project: "p", kind: "event", event: { kind: "laid", piece: "p1" } },
];

test("a project file brings back job, progress and undo", () => {
  const found = findIn(JSON.parse(projectText(second, log)), "q");
  if (found.kind !== "project") throw new Error(found.kind);
  expect(found).toMatchObject({ title: "Back yard", kept: true });
  const folded = found.records.reduce(foldRecord, EMPTY);
  expect(folded.job).toEqual(second);
  expect(folded.done?.count).toBe(1);
  expect(folded.events?.count).toBe(1);
  expect(found.records.every((record) => record.project === "q")).toBe(true);
});

test("a log that does not lead to the job is left out; job and progress stay", () => {
  const file = JSON.parse(projectText(second, log)) as { log: Json[] };
  file.log = [{ nonsense: true }, ...file.log.slice(0, 1)];
  const found = findIn(file, "q");
  if (found.kind !== "project") throw new Error(found.kind);
  expect(found.kept).toBe(false);
  const folded = found.records.reduce(foldRecord, EMPTY);
  expect([folded.job, folded.done, folded.events?.count]).toEqual([second, null, 1]);
});

test("other files are told apart", () => {
  expect(findIn(first, "q").kind).toBe("job");
  expect(findIn({ format: "rowline/project@2" }, "q")).toEqual({ kind: "newer", format: "rowline/project@2" });
  for (const other of [
    null,
    3,
    [],
    "x",
    {},
    { format: "rowline/plan@1" },
    { format: "rowline/project@1" },
    { format: "rowline/job@1", title: "x" },
  ])
    expect(findIn(other, "q").kind).toBe("other");
});
