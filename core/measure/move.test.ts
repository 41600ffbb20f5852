import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { JobDraft } from "../edits/draft.ts";
import { jobText } from "../edits/draft.ts";
import { loadJob } from "../plan/load.ts";
import { shapeByTapes } from "./move.ts";
import { distance, markName } from "./walk.ts";

/** The job with every pair of corners taped as drawn. */
function taped(job: JobDraft): JobDraft {
  const outline = job.site.outline!;
  job.survey ??= {};
  job.survey.ties = outline.flatMap((a, i) =>
    outline
      .slice(i + 1)
      .map((b, j): [string, string, number] => [
        markName(i),
        markName(i + 1 + j),
        distance([a[0], a[1]], [b[0], b[1]]),
      ]),
  ) as typeof job.survey.ties;
  return job;
}
function surveyed(job: JobDraft) {
  const read = loadJob(jobText(job), "job");
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value.survey;
}
const EXAMPLE = new URL("../../examples/courtyard.job.json", import.meta.url);
const exampleDraft = () => JSON.parse(readFileSync(EXAMPLE, "utf8")) as JobDraft;

test("a shape handed to its tapes stays the shape, also walked clockwise and lying askew", () => {
  for (const make of [
    (job: JobDraft) => job,
    (job: JobDraft) => {
      job.site.outline!.reverse();
      job.site.sides!.reverse();
      job.site.sides!.push(job.site.sides!.shift()!);
      return job;
    },
  ]) {
    const job = taped(make(exampleDraft()));
    const before = gaps(job, outlineOf(job));
    shapeByTapes(job);
    expect(job.site.outline).toBeUndefined();
    const record = surveyed(job);
    const after = gaps(job, record.outline);
    before.forEach((value, i) => {
      expect(after[i]).toBeCloseTo(value, 1);
    });
  }
});

const outlineOf = (job: JobDraft) => job.site.outline!.map(([x, y]): [number, number, number] => [x, y, 0]);
/** Distance of every cut-out's first corner to every corner of the outline, sorted: the same however the frame lies. */
function gaps(job: JobDraft, outline: readonly (readonly [number, number, ...number[]])[]): number[] {
  return job.site
    .cutouts!.flatMap(({ ring }) =>
      outline.map(([x, y]) => distance([x, y], [ring![0]![0]!, ring![0]![1]!] as [number, number])),
    )
    .sort((a, b) => a - b);
}
