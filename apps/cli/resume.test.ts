/** `rowline resume` as a crew calls it: three files in, exit codes, files out. Runs the built program (`npm test` builds first). */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { hashJson } from "../../core/job/hash.ts";
import type { PlanFile } from "../../core/plan/plan.ts";

const MAIN = fileURLToPath(new URL("../../dist/apps/cli/main.js", import.meta.url));
const NICHE = fileURLToPath(new URL("../../fixtures/jobs/niche.job.json", import.meta.url));
let dir = "";
let plan: PlanFile;

function rowline(args: string[]): { code: number | null; out: string; err: string } {
  const run = spawnSync(process.execPath, [MAIN, ...args], { cwd: dir, encoding: "utf8", maxBuffer: 1 << 28 });
  return { code: run.status, out: run.stdout, err: run.stderr };
}
function write(name: string, events: object[], more: object = {}): void {
  const listed = events.map((one, i) => ({ id: `e${i}`, when: "2026-05-14T09:30:00Z", by: "Ada", ...one }));
  const job = hashJson(JSON.parse(readFileSync(NICHE, "utf8")));
  const file = { format: "rowline/progress@1", job, plan: hashJson(plan), events: listed, ...more };
  writeFileSync(join(dir, name), JSON.stringify(file, null, 1));
}
const lay = (count: number) => plan.laying.slice(0, count).map(({ piece }) => ({ kind: "laid", piece }));
const jsonOf = (path: string) => JSON.parse(readFileSync(join(dir, path), "utf8"));

beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), "rowline-resume-"));
  expect([0, 3]).toContain(rowline(["plan", NICHE, "-o", "first"]).code);
  plan = jsonOf("first/plan.json");
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

describe("resume", () => {
  test("writes job, plan, papers and progress; check accepts them; they can be resumed again", () => {
    write("p.json", lay(5));
    const run = rowline(["resume", NICHE, "first/plan.json", "p.json", "-o", "second"]);
    expect(run.err).toBe("");
    expect([0, 3]).toContain(run.code);
    expect(run.out).toContain(`Laid so far: 5 of ${plan.pieces.length} pieces`);
    const files = readdirSync(join(dir, "second"));
    for (const name of ["resumed.job.json", "plan.json", "progress.json", "setout.pdf", "cards.pdf", "order.xlsx"])
      expect(files).toContain(name);
    const check = rowline(["check", "second/resumed.job.json", "second/plan.json"]);
    expect(check.err).toBe("");
    expect(check.code).toBe(run.code);
    const progress = jsonOf("second/progress.json");
    expect(progress.events.map((one: { id: string }) => one.id)).toEqual(["e0", "e1", "e2", "e3", "e4"]);
    expect(progress.plan).toBe(hashJson(jsonOf("second/plan.json")));
    const again = rowline([
      "resume",
      "second/resumed.job.json",
      "second/plan.json",
      "second/progress.json",
      "-o",
      "third",
    ]);
    expect(again.code).toBe(run.code);
    expect(jsonOf("third/plan.json").pieces).toEqual(jsonOf("second/plan.json").pieces);
  });

  test("another plan's hash and an unknown piece: both told with line and place, exit 2, nothing written", () => {
    write("wrong.json", [{ kind: "laid", piece: "p9999" }], { plan: "1".repeat(64) });
    const run = rowline(["resume", NICHE, "first/plan.json", "wrong.json", "-o", "never"]);
    expect(run.code).toBe(2);
    expect(run.out).toBe("");
    expect(run.err).toMatch(/wrong\.json:4:\d+ plan: /);
    expect(run.err).toMatch(/wrong\.json:\d+:\d+ events\[0\]\.piece: The plan has no piece p9999/);
    expect(readdirSync(dir)).not.toContain("never");
  });

  test("--json prints the machine form alone on stdout, and names what lies otherwise: exit 3", () => {
    const job = jsonOfAbsolute(NICHE);
    const at = job.site.outline.length - 1;
    const [a, b] = [job.site.outline[at], job.site.outline[0]];
    const out = (p: number[], by: number[]) => [p[0]! + by[0]!, p[1]! + by[1]!];
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const length = Math.sqrt(dx * dx + dy * dy);
    const by = [(6 * dy) / length, (-6 * dx) / length];
    write("wall.json", [...lay(plan.pieces.length), { kind: "wall", side: at, points: [out(a, by), out(b, by)] }]);
    const run = rowline(["resume", NICHE, "first/plan.json", "wall.json", "-o", "wall", "--json"]);
    const answer = JSON.parse(run.out);
    expect(answer.resume.laid.length + answer.resume.otherwise.length).toBe(plan.pieces.length);
    expect(answer.resume.otherwise.length).toBeGreaterThan(0);
    expect(run.code).toBe(3);
    expect(run.err).toContain("Stop: ");
    expect(rowline(["check", "wall/resumed.job.json", "wall/plan.json"]).err).toBe("");
  });
});

function jsonOfAbsolute(path: string) {
  return JSON.parse(readFileSync(path, "utf8"));
}
