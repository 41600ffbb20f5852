import { sameJson } from "../../../core/edits/apply.ts";
import { diffEdit } from "../../../core/edits/diff.ts";
import { asDraft, asJson, type JobDraft } from "../../../core/edits/draft.ts";
import type { EditName, Json } from "../../../core/edits/edit.ts";
import { EMPTY, type Folded, foldRecord, type LogRecord, listOf, nextRedo, nextUndo } from "../../../core/edits/log.ts";
import type { Kept, LogRoom } from "./log-room.ts";

export interface StoreState {
  project: string;
  job: JobDraft;
  /** Changes with every change of the job: what a plan answers to. */
  version: number;
  /** What undo and redo would do; null where there is nothing. */
  undo: EditName | null;
  redo: EditName | null;
  /** Progress events, oldest first. */
  events: readonly Json[];
  /** Records of this project that the database has acknowledged. */
  kept: number;
  /** saved: everything acknowledged by the database; stuck: it refused. */
  keeping: "saved" | "saving" | "stuck";
  /** Records of other versions, kept and not used. */
  skipped: number;
}
/** One project, open. All changes of a job go through here; screens re-read `state` when told. */
export interface Store {
  readonly state: StoreState;
  listen(tell: () => void): () => void;
  /** Changes the job: `change` alters a copy; what differs becomes one small record. */
  edit(name: EditName, change: (job: JobDraft) => void): void;
  /** Puts a whole job in place of this one (one edit, can be undone). */
  replace(name: EditName, job: JobDraft): void;
  undo(): void;
  redo(): void;
  /** Adds an event of the progress file. */
  event(event: Json): void;
  /** All records of the project in order, for the project file. */
  records(): LogRecord[];
  /** Resolves when everything so far is acknowledged or refused. */
  settled(): Promise<void>;
  /** Reads what other tabs wrote. */
  catchUp(): Promise<void>;
  close(): void;
}
/** Counts states of any job on this page, so that a plan of one job is never taken for another's. */
let version = 0;

/** A database that refused is asked again after this long, and at every change. */
const RETRY_MS = 3_000;

export interface Tabs {
  tell(project: string): void;
  listen(heard: (project: string) => void): () => void;
}

/** Opens a project: folds its log. `newId` gives ids never used twice. */
export async function openStore(room: LogRoom, project: string, newId: () => string, tabs?: Tabs): Promise<Store> {
  const known: LogRecord[] = [];
  /** A record written twice, because its first answer got lost, counts once. */
  const seen = new Set<string>();
  const waiting: LogRecord[] = [];
  const tellers = new Set<() => void>();
  let skipped = 0;
  let seq = 0;
  let settledState: Folded = EMPTY;
  let shown: Folded = EMPTY;
  let stuck = false;
  let closed = false;
  let working: Promise<void> | null = null;
  let again: ReturnType<typeof setTimeout> | undefined;
  let state!: StoreState;
  let listedOf: Folded["events"] = null;

  take(await room.read(project, 0));
  shown = settledState;
  if (shown.job === null) throw new Error("no such project");
  refresh();
  const deafen = tabs?.listen((which) => {
    if (which === project) void store.catchUp();
  });

  const store: Store = {
    get state() {
      return state;
    },
    listen(tell) {
      tellers.add(tell);
      return () => void tellers.delete(tell);
    },
    edit(name, change) {
      const draft = structuredClone(shown.job) as Json;
      change(asDraft(draft));
      store.replace(name, asDraft(draft));
    },
    replace(name, job) {
      const edit = diffEdit(name, shown.job!, JSON.parse(JSON.stringify(asJson(job))) as Json);
      if (edit) add({ id: newId(), project, kind: "edit", edit });
    },
    undo() {
      const next = nextUndo(shown);
      if (next) add({ id: newId(), project, kind: "undo", of: next.id });
    },
    redo() {
      const next = nextRedo(shown);
      if (next) add({ id: newId(), project, kind: "redo", of: next.id });
    },
    event(event) {
      add({ id: newId(), project, kind: "event", event });
    },
    records: () => [...known, ...waiting],
    settled: async () => {
      while (working) await working;
    },
    async catchUp() {
      await store.settled();
      if (closed) return;
      if (take(await room.read(project, seq))) show();
    },
    close() {
      closed = true;
      clearTimeout(again);
      deafen?.();
      tellers.clear();
    },
  };
  return store;

  function add(record: LogRecord): void {
    waiting.push(record);
    shown = foldRecord(shown, record);
    refresh();
    start();
  }

  function start(): void {
    clearTimeout(again);
    working ??= write().finally(() => {
      working = null;
    });
  }

  /** Writes what waits, in one transaction, until nothing waits. A refusal keeps the records waiting and says so. */
  async function write(): Promise<void> {
    await Promise.resolve();
    while (waiting.length > 0) {
      const batch = waiting.slice();
      try {
        const kept = await room.append(project, batch, seq);
        waiting.splice(0, batch.length);
        stuck = false;
        take(kept);
        show();
        tabs?.tell(project);
      } catch {
        stuck = true;
        refresh();
        if (!closed) again = setTimeout(start, RETRY_MS);
        return;
      }
    }
  }

  /** Folds records as the database has them; answers whether there were any. */
  function take(kept: readonly Kept[]): boolean {
    for (const { seq: at, record } of kept) {
      if (at <= seq) continue;
      seq = at;
      if (!record) skipped++;
      else if (!seen.has(record.id)) {
        seen.add(record.id);
        known.push(record);
        settledState = foldRecord(settledState, record);
      }
    }
    return kept.length > 0;
  }

  function show(): void {
    const next = waiting.reduce(foldRecord, settledState);
    // What was shown before it was kept is mostly the same job: then nothing is planned again.
    shown = sameJson(shown.job!, next.job!) ? { ...next, job: shown.job } : next;
    refresh();
  }

  function refresh(): void {
    const job = asDraft(shown.job!);
    if (state?.job !== job) version++;
    state = {
      project,
      job,
      version,
      undo: nextUndo(shown)?.name ?? null,
      redo: nextRedo(shown)?.name ?? null,
      events: state && listedOf === shown.events ? state.events : listOf(shown.events),
      kept: known.length,
      keeping: stuck ? "stuck" : waiting.length > 0 ? "saving" : "saved",
      skipped,
    };
    listedOf = shown.events;
    for (const tell of tellers) tell();
  }
}
