import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { isLogRecord } from "../../../core/edits/log.ts";
import type { Kept, LogRoom, ProjectCard } from "./log-room.ts";

interface Shelves extends DBSchema {
  /** Only ever added to. The key is the database's own order. */
  log: { key: number; value: unknown; indexes: { project: string } };
  projects: { key: string; value: ProjectCard };
  settings: { key: string; value: unknown };
}
const NAME = "rowline";
const STRICT = { durability: "strict" } as const;

/** The browser's database. Every write waits for the disk, is read back and compared before it counts as kept. */
export async function openLogRoom(name = NAME): Promise<LogRoom> {
  const db = await openDB<Shelves>(name, 1, {
    upgrade(base) {
      base.createObjectStore("log", { autoIncrement: true }).createIndex("project", "project");
      base.createObjectStore("projects", { keyPath: "id" });
      base.createObjectStore("settings");
    },
    // A later version in another tab may change the shelves: let it.
    blocking: (_from, _to, event) => (event.target as IDBDatabase).close(),
  });
  const read = (project: string, after: number) => readAfter(db, project, after);
  return {
    async append(project, records, after) {
      const tx = db.transaction("log", "readwrite", STRICT);
      const keys = await Promise.all(records.map((record) => tx.store.add(record)));
      await tx.done;
      const kept = await read(project, after);
      const back = new Map(kept.map(({ seq, record }) => [seq, record]));
      records.forEach((record, i) => {
        if (JSON.stringify(back.get(keys[i]!)) !== JSON.stringify(record)) throw new Error("read back differs");
      });
      return kept;
    },
    read,
    async projects() {
      const cards = await db.getAll("projects");
      return cards.sort((a, b) => b.used - a.used);
    },
    async note(id, title) {
      const tx = db.transaction("projects", "readwrite", STRICT);
      const used = 1 + (await tx.store.getAll()).reduce((most, card) => Math.max(most, card.used), 0);
      await tx.store.put({ id, title, used });
      await tx.done;
    },
    async forget(id) {
      const tx = db.transaction(["log", "projects"], "readwrite", STRICT);
      await tx.objectStore("projects").delete(id);
      for (const key of await tx.objectStore("log").index("project").getAllKeys(id))
        await tx.objectStore("log").delete(key);
      await tx.done;
    },
    setting: (key) => db.get("settings", key),
    async setSetting(key, value) {
      const tx = db.transaction("settings", "readwrite", STRICT);
      await tx.store.put(value, key);
      await tx.done;
    },
    close: () => db.close(),
  };
}

/** Records after a place, in order. A record that cannot be read stays, and is answered as null. */
async function readAfter(db: IDBPDatabase<Shelves>, project: string, after: number): Promise<Kept[]> {
  const out: Kept[] = [];
  let cursor = await db.transaction("log").store.index("project").openCursor(IDBKeyRange.only(project));
  if (cursor && after > 0 && cursor.primaryKey <= after) cursor = await cursor.continuePrimaryKey(project, after + 0.5);
  while (cursor) {
    const value: unknown = cursor.value;
    out.push({ seq: cursor.primaryKey, record: isLogRecord(value) ? value : null });
    cursor = await cursor.continue();
  }
  return out;
}
