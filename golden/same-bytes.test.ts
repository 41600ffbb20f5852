import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { planText } from "../desk/papers.ts";
import { provedFile } from "../fixtures/proved.ts";

const JOB = "examples/courtyard.job.json";
const at = (path: string): string => fileURLToPath(new URL(`../${path}`, import.meta.url));

test("the courtyard planned twice in one process is the same text", () => {
  expect(planText(provedFile(JOB).plan)).toBe(planText(provedFile(JOB).plan));
});

test("two processes of the built program write the same bytes, every paper", () => {
  const main = at("dist/apps/cli/main.js");
  const folder = mkdtempSync(join(tmpdir(), "rowline-"));
  try {
    const [first, second] = ["a", "b"].map((name) => {
      const out = join(folder, name);
      const run = spawnSync(process.execPath, [main, "plan", at(JOB), "-o", out], { encoding: "utf8" });
      // 0, or 3 where a finding says stop: both write.
      expect([0, 3], run.stderr).toContain(run.status);
      return sums(out);
    });
    expect(Object.keys(first!).length).toBeGreaterThan(10);
    expect(second).toEqual(first);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

function sums(folder: string): Record<string, string> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true });
  return Object.fromEntries(
    names
      .filter((entry) => entry.isFile())
      .map((entry) => [entry.name, createHash("sha256").update(readFileSync(join(entry.parentPath, entry.name))).digest("hex")]),
  );
}
