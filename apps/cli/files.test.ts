import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, expect, test } from "vitest";
import { FileTrouble, writeAll } from "./files.ts";
import { forTerminal } from "./terminal.ts";

const made: string[] = [];
function folder(): string {
  const dir = mkdtempSync(join(tmpdir(), "rowline-files-"));
  made.push(dir);
  return dir;
}
afterEach(() => {
  for (const dir of made.splice(0)) rmSync(dir, { recursive: true, force: true });
});

test("what a stopped run left unfinished is taken away by the next, others' files stay", () => {
  const dir = folder();
  writeFileSync(join(dir, "card-12-1.svg.rowline-tmp"), "half a ca");
  writeFileSync(join(dir, "mine.csv.tmp"), "mine");
  mkdirSync(join(dir, "kept.rowline-tmp"));
  writeAll(dir, [{ name: "plan.json", bytes: "{}" }]);
  expect(readdirSync(dir).sort()).toEqual(["kept.rowline-tmp", "mine.csv.tmp", "plan.json"]);
});

test("an unfinished file that is a link does not lead the writing elsewhere", () => {
  const dir = folder();
  const elsewhere = join(folder(), "elsewhere");
  writeFileSync(elsewhere, "stays");
  symlinkSync(elsewhere, join(dir, "plan.json.rowline-tmp"));
  writeAll(dir, [{ name: "plan.json", bytes: "{}" }]);
  expect(readFileSync(elsewhere, "utf8")).toBe("stays");
  expect(readFileSync(join(dir, "plan.json"), "utf8")).toBe("{}");
});

test("where one paper cannot be written none is, and what was there stays", () => {
  const dir = folder();
  writeFileSync(join(dir, "plan.json"), "old");
  mkdirSync(join(dir, "summary.pdf"));
  const files = ["plan.json", "summary.pdf"].map((name) => ({ name, bytes: "new" }));
  expect(() => writeAll(dir, files)).toThrow(FileTrouble);
  expect(readFileSync(join(dir, "plan.json"), "utf8")).toBe("old");
  expect(readdirSync(dir).sort()).toEqual(["plan.json", "summary.pdf"]);
  expect(() => writeAll(join(dir, "plan.json"), files)).toThrow(/a file stands where a folder is wanted/);
  expect(existsSync(join(dir, "plan.json", "plan.json"))).toBe(false);
});

test("folders above are made; one that cannot be made is told of, and soon", () => {
  const deep = join(folder(), "a", "b");
  expect(writeAll(deep, [{ name: "plan.json", bytes: "{}" }])).toEqual([join(deep, "plan.json")]);
  expect(() => writeAll("/dev/null/x", [])).toThrow(FileTrouble);
  if (existsSync("/proc/self")) expect(() => writeAll("/proc/rowline/x", [])).toThrow(FileTrouble);
});

test("names cannot command the terminal", () => {
  expect(forTerminal("a\u001b[31mred\u0007\r\u202eb\u009b2J\u0000 c\td\ne é 🏗")).toBe(
    "a\ufffd[31mred\ufffd\ufffd\ufffdb\ufffd2J\ufffd c\td\ne é 🏗",
  );
});
