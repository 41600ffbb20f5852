import { asJson, type JobDraft, jobText } from "../../core/edits/draft.ts";
import { anew, findIn, projectText } from "../../core/edits/project.ts";
import type { AppWords } from "../../words/app.ts";
import type { SaidProblem } from "./desk/asks.ts";
import type { Opened } from "./open.ts";
import { newId } from "./store/ids.ts";
import type { Store } from "./store/store.ts";

/** Largest file that is read: as the planner's own limit. */
const MOST_BYTES = 64 * 1024 * 1024;

/** What became of a file: a store to show, or sentences. */
export type FileOpened =
  | { ok: true; store: Store; says: string | null }
  | { ok: false; says: string; problems: readonly SaidProblem[] };

/** Opens a project or job file as a project of its own; nothing that was open is touched. */
export async function openFile(file: File, opened: Opened, words: AppWords, language: string): Promise<FileOpened> {
  const { shell } = words;
  const refuse = (says: string, problems: readonly SaidProblem[] = []): FileOpened => ({ ok: false, says, problems });
  if (file.size > MOST_BYTES) return refuse(shell.tooLarge(file.name, words.write.mm(MOST_BYTES / 1024 / 1024)));
  const text = await file.text();
  const id = newId();
  const found = findIn(parsed(text), id);
  if (found.kind === "newer") return refuse(shell.newerFile(file.name, found.format));
  if (found.kind === "project") {
    await opened.room.append(id, found.records, 0);
    await opened.room.note(id, found.title);
    return { ok: true, store: await opened.openProject(id), says: found.kept ? null : shell.openedAnew(file.name) };
  }
  const problems = await opened.desk.read(text, file.name, language);
  if (found.kind === "job" && problems.length === 0)
    return { ok: true, store: await startProject(opened, found.job as unknown as JobDraft), says: null };
  // A text that is not JSON at all has its own sentences, but a picture or a table is better told by its kind.
  if (found.kind === "other" && !/^\s*[{[]/.test(text)) return refuse(shell.notOurFile(file.name));
  return problems.length > 0
    ? refuse(shell.fileProblems(file.name, problems.length), problems)
    : refuse(shell.notOurFile(file.name));
}

export async function startProject(opened: Opened, job: JobDraft): Promise<Store> {
  const id = newId();
  await opened.room.append(id, anew(id, asJson(job), []), 0);
  await opened.room.note(id, job.title);
  return opened.openProject(id);
}

/** The project as one file to save and send. */
export function projectFile(store: Store): { name: string; bytes: string } {
  const { job } = store.state;
  return { name: `${fileName(job.title)}.project.json`, bytes: projectText(asJson(job), store.records()) };
}

export function jobFile(job: JobDraft): { name: string; bytes: string } {
  return { name: `${fileName(job.title)}.job.json`, bytes: jobText(job) };
}

/** A title as a file name that every system takes. */
function fileName(title: string): string {
  const plain = title
    .normalize("NFKD")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 60);
  return plain === "" ? "terrace" : plain;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch {
    return undefined;
  }
}
