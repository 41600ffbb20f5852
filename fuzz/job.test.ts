/** A short run of the fuzzer: spoilt texts are refused with a place and a sentence, and never thrown out. */
import { expect, test } from "vitest";
import { loadJob } from "../core/plan/load.ts";
import { jobText, judgeRefusal } from "./case.ts";

test("300 spoilt jobs are read, or refused with place and remedy", () => {
  const defects: string[] = [];
  let refused = 0;
  for (let seed = 1; seed <= 300; seed++) {
    const read = loadJob(jobText(seed).text, "job.json");
    if (read.ok) continue;
    refused++;
    defects.push(...judgeRefusal(read.problems).defects.map((one) => `${seed}: ${one}`));
  }
  expect(defects).toEqual([]);
  expect(refused).toBeGreaterThan(100);
});
