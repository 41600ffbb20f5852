/** The command line as other programs call it: exit codes, streams, files. Runs the built program (`npm test` builds first). */
import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const MAIN = join(ROOT, "dist/apps/cli/main.js");
const COURTYARD = join(ROOT, "examples/courtyard.job.json");
const NICHE = join(ROOT, "fixtures/jobs/niche.job.json");
let dir = "";

function rowline(args: string[], input?: string): { code: number | null; out: string; err: string } {
  const run = spawnSync(process.execPath, [MAIN, ...args], { cwd: dir, input, encoding: "utf8", maxBuffer: 1 << 28 });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), "rowline-"));
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

describe("plan", () => {
  test("writes plan.json and every paper, says where each lies, and check accepts the two files", () => {
    const run = rowline(["plan", COURTYARD, "-o", "papers"]);
    expect(run.err).toBe("");
    expect([0, 3]).toContain(run.code);
    const files = readdirSync(join(dir, "papers"));
    for (const name of [
      "plan.json",
      "setout.pdf",
      "setout.dxf",
      "setout-1.svg",
      "fixing.pdf",
      "base.pdf",
      "cards.pdf",
      "cutlist.pdf",
      "cutlist.csv",
      "staking.pdf",
      "summary.pdf",
      "order.csv",
      "order.xlsx",
    ])
      expect(files).toContain(name);
    expect(files.filter((name) => name.endsWith("tmp"))).toEqual([]);
    for (const name of files) expect(run.out).toContain(join("papers", name));
    const check = rowline(["check", COURTYARD, "papers/plan.json"]);
    expect(check.err).toBe("");
    expect(check.code).toBe(run.code);
  });

  test("same job, same bytes: a second run and stdin give the same files", () => {
    rowline(["plan", NICHE, "-o", "a"]);
    rowline(["plan", "-", "-o", "b"], readFileSync(NICHE, "utf8"));
    const names = readdirSync(join(dir, "a"));
    expect(readdirSync(join(dir, "b"))).toEqual(names);
    for (const name of names)
      expect(readFileSync(join(dir, "a", name)).equals(readFileSync(join(dir, "b", name))), name).toBe(true);
  });

  test("--json prints the plan alone on stdout", () => {
    const run = rowline(["plan", NICHE, "-o", "j", "--json"]);
    expect(JSON.parse(run.out).format).toBe("rowline/plan@1");
  });

  test("wrong input: every problem at once with line and remedy, exit 2, nothing written", () => {
    writeFileSync(
      join(dir, "bad.json"),
      '{"format":"rowline/job@1",\n"titel":"x",\n"site":{"outline":[[0,0],[1,1]]},\n"board":{"lengths":[],"width":-3,"rise":25}}',
    );
    const run = rowline(["plan", "bad.json", "-o", "never"]);
    expect(run.code).toBe(2);
    expect(run.out).toBe("");
    expect(run.err).toContain("bad.json:2:");
    expect(run.err).toContain("title");
    expect(run.err.split("\n").length).toBeGreaterThan(4);
    expect(readdirSync(dir)).not.toContain("never");
  });

  test("an unconfirmed membrane is a stop: exit 3, the papers stand", () => {
    const job = JSON.parse(readFileSync(NICHE, "utf8"));
    job.base.membrane = "unknown";
    writeFileSync(join(dir, "membrane.json"), JSON.stringify(job));
    const run = rowline(["plan", "membrane.json", "-o", "m"]);
    expect(run.code).toBe(3);
    expect(readdirSync(join(dir, "m"))).toContain("plan.json");
  });
});

describe("check", () => {
  test("a spoilt plan is refused with exit 2", () => {
    rowline(["plan", NICHE, "-o", "c"]);
    const plan = JSON.parse(readFileSync(join(dir, "c/plan.json"), "utf8"));
    plan.pieces[0].length += 1;
    writeFileSync(join(dir, "spoilt.json"), JSON.stringify(plan));
    const run = rowline(["check", NICHE, "spoilt.json"]);
    expect(run.code).toBe(2);
    expect(run.err).toMatch(/Not proved/);
  });

  test("another job's plan is refused", () => {
    rowline(["plan", NICHE, "-o", "d"]);
    expect(rowline(["check", COURTYARD, "d/plan.json"]).code).toBe(2);
  });
});

describe("what goes wrong outside", () => {
  test.each([
    [["plan"], /wants JOB/],
    [["plan", "x.json"], /-o DIR/],
    [["plant", "x.json"], /There is no command/],
    [["plan", "x.json", "-o", "y", "--fast"], /no option --fast/],
    [["plan", "not-there.json", "-o", "y"], /is not there/],
    [["plan", ".", "-o", "y"], /is a folder/],
    [["schema", "house"], /no schema/],
  ])("%j ends with 2 and a sentence", (args, sentence) => {
    const run = rowline(args);
    expect(run.code).toBe(2);
    expect(run.err).toMatch(sentence);
    expect(run.out).toBe("");
  });

  test("a file where the folder should be is left as it was", () => {
    writeFileSync(join(dir, "taken"), "mine");
    const run = rowline(["plan", NICHE, "-o", "taken"]);
    expect(run.code).toBe(2);
    expect(readFileSync(join(dir, "taken"), "utf8")).toBe("mine");
  });

  test("text that is not UTF-8 is refused with a sentence", () => {
    writeFileSync(join(dir, "latin.json"), Buffer.from([0x7b, 0xff, 0x7d]));
    const run = rowline(["base", "latin.json"]);
    expect(run.code).toBe(2);
    expect(run.err).toContain("UTF-8");
  });
});

test("schemas, base, help and version answer on stdout", () => {
  for (const name of ["job", "plan", "progress"])
    expect(JSON.parse(rowline(["schema", name]).out).$schema).toBe("https://json-schema.org/draft/2020-12/schema");
  expect(rowline(["base", COURTYARD]).out).toContain("Verdict");
  expect(JSON.parse(rowline(["base", COURTYARD, "--json"]).out).base.verdict).toBe("prepare");
  expect(rowline(["--help"]).out).toContain("rowline check JOB PLAN");
  expect(rowline(["--version"]).out).toMatch(/^\d+\.\d+\.\d+\n$/);
});

test("stopped by the user: exit 130, nothing written", async () => {
  const outline = [
    [0, 0],
    [90000, 500],
    [90000, 90000],
    [0, 90000],
  ];
  const job = {
    format: "rowline/job@1",
    title: "large",
    site: { outline },
    board: { lengths: [{ length: 1500, price: 1 }], width: 145, rise: 25 },
  };
  writeFileSync(join(dir, "large.json"), JSON.stringify(job));
  const run = spawn(process.execPath, [MAIN, "plan", "large.json", "-o", "large"], { cwd: dir });
  const ended = new Promise<number | null>((resolve) => run.once("exit", resolve));
  setTimeout(() => run.kill("SIGINT"), 900);
  expect(await ended).toBe(130);
  expect(readdirSync(dir)).not.toContain("large");
});
