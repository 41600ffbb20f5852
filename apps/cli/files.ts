import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import { dirname, join, resolve } from "node:path";
import { LIMITS } from "../../core/base/limits.ts";
import type { NamedText, OutFile } from "../../desk/outcome.ts";

/** A file that cannot be read or a folder that cannot be written, as a sentence that says what to do. */
export class FileTrouble extends Error {}

/** Reads a file, or stdin for "-". */
export function readText(name: string): NamedText {
  const shown = name === "-" ? "stdin" : name;
  try {
    if (name !== "-") {
      const stat = statSync(name);
      if (stat.isDirectory()) throw new FileTrouble(`${shown} is a folder. Name the file in it.`);
      if (stat.size > LIMITS.textBytes)
        throw new FileTrouble(
          `${shown} is larger than ${LIMITS.textBytes / 1024 / 1024} MB. Thin the readings or split the job.`,
        );
    }
    const bytes = readFileSync(name === "-" ? 0 : name);
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return { name: shown, text };
  } catch (cause) {
    if (cause instanceof FileTrouble) throw cause;
    throw new FileTrouble(sentenceFor(shown, cause));
  }
}

function sentenceFor(name: string, cause: unknown): string {
  const code = codeOf(cause);
  if (code === "ENOENT") return `${name} is not there. Check the name and the folder.`;
  if (code === "EACCES" || code === "EPERM") return `${name} may not be read or written. Check who owns it.`;
  if (code === "ENOSPC") return `The disk is full: ${name} could not be written. Make room and start again.`;
  if (code === "ENOTDIR" || code === "EEXIST")
    return `${name}: a file stands where a folder is wanted. Name another folder.`;
  if (cause instanceof TypeError) return `${name} is not UTF-8 text. Save it as UTF-8.`;
  return `${name} could not be used (${code || String(cause)}).`;
}

function codeOf(cause: unknown): string {
  return typeof cause === "object" && cause !== null && "code" in cause ? String(cause.code) : "";
}

/** Ending of a file that is still being written; ours alone, so that what a stopped run left can be told from others' files. */
const UNFINISHED = ".rowline-tmp";

/**
 * Writes all files or leaves what was there: each goes to a neighbour first, is flushed, and only when all stand
 * are they renamed into place. What an earlier run left unfinished is taken away first.
 */
export function writeAll(dir: string, files: OutFile[]): string[] {
  const written: { temporary: string; final: string }[] = [];
  let current = dir;
  try {
    makeFolder(dir);
    for (const entry of readdirSync(dir, { withFileTypes: true }))
      if (entry.name.endsWith(UNFINISHED) && !entry.isDirectory()) rmSync(join(dir, entry.name), { force: true });
    for (const file of files) {
      const final = join(dir, file.name);
      current = final;
      if (existsSync(final) && statSync(final).isDirectory())
        throw new FileTrouble(`${final} is a folder where a paper should go. Move it or name another folder.`);
      const temporary = `${final}${UNFINISHED}`;
      written.push({ temporary, final });
      const handle = openSync(temporary, "w");
      try {
        const bytes = typeof file.bytes === "string" ? new TextEncoder().encode(file.bytes) : file.bytes;
        let done = 0;
        while (done < bytes.length) done += writeSync(handle, bytes, done);
        fsyncSync(handle);
      } finally {
        closeSync(handle);
      }
    }
    for (const { temporary, final } of written) {
      current = final;
      renameSync(temporary, final);
    }
    return written.map(({ final }) => final);
  } catch (cause) {
    for (const { temporary } of written) rmSync(temporary, { force: true });
    if (cause instanceof FileTrouble) throw cause;
    throw new FileTrouble(sentenceFor(current, cause));
  }
}

/**
 * The folder with all above it. One at a time, from the top: Node's own recursive making never ends where the system says
 * of a folder that may not be made that its parent is not there (as under /proc).
 */
function makeFolder(dir: string): void {
  const missing: string[] = [];
  for (let at = resolve(dir); !existsSync(at); at = dirname(at)) missing.push(at);
  for (const at of missing.reverse()) mkdirSync(at);
  // says in its own words where what is there is no folder
  if (!statSync(dir).isDirectory())
    throw new FileTrouble(`${dir}: a file stands where a folder is wanted. Name another folder.`);
}
