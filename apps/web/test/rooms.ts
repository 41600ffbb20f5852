/** Runs in a browser page: the store on the real database. Bundled by rooms.test.ts. */
import { asJson, type JobDraft, jobText } from "../../../core/edits/draft.ts";
import type { LogRecord } from "../../../core/edits/log.ts";
import { openLogRoom } from "../store/indexed-db.ts";
import { openStore } from "../store/store.ts";

const FIRST: JobDraft = {
  format: "rowline/job@1",
  title: "Yard",
  site: {
    outline: [
      [0, 0],
      [5000, 0],
      [5000, 3000],
    ],
  },
};
const newId = () => crypto.randomUUID();
const start = (project: string): LogRecord => ({ id: newId(), project, kind: "start", job: asJson(FIRST) });

export async function randomSequences(sequences: number, length: number) {
  const differing: string[] = [];
  let seed = 1;
  const chance = (below: number) => {
    seed = (Math.imul(seed, 1_103_515_245) + 12_345) & 0x7fffffff;
    return (seed >>> 8) % below;
  };
  for (let n = 0; n < sequences; n++) {
    const project = `s${n}`;
    let room = await openLogRoom("sequences");
    await room.append(project, [start(project)], 0);
    let store = await openStore(room, project, newId);
    const texts = [jobText(FIRST)];
    let at = 0;
    for (let i = 0; i < length; i++) {
      const act = chance(7);
      if (act === 0) {
        store.undo();
        at = Math.max(0, at - 1);
      } else if (act === 1) {
        store.redo();
        at = Math.min(texts.length - 1, at + 1);
      } else if (act === 2 && chance(3) === 0) {
        await store.settled();
        store.close();
        room.close();
        room = await openLogRoom("sequences");
        store = await openStore(room, project, newId);
      } else {
        const [where, value] = [chance(4), chance(5)];
        const change = (job: JobDraft) => {
          if (act === 3) job.title = `t${value}`;
          else if (act === 4) job.site.outline!.splice(where, 1, [value, value]);
          else if (act === 5) job.bond = { angle: value };
          else job.site.outline!.splice(where, value % 2, [where, value]);
        };
        store.edit("outline", change);
        const copy = JSON.parse(texts[at]!) as JobDraft;
        change(copy);
        if (jobText(copy) !== texts[at]) texts.splice(++at, texts.length, jobText(copy));
      }
      if (jobText(store.state.job) !== texts[at]) differing.push(`${project} at ${i}`);
    }
    await store.settled();
    room.close();
    room = await openLogRoom("sequences");
    const again = await openStore(room, project, newId);
    if (jobText(again.state.job) !== texts[at]) differing.push(`${project} reopened`);
    while (again.state.undo) again.undo();
    if (jobText(again.state.job) !== texts[0]) differing.push(`${project} all undone`);
    await again.settled();
    room.close();
  }
  return { sequences, differing };
}

export async function strangers() {
  const room = await openLogRoom("strangers");
  await room.append("p", [start("p")], 0);
  const strange = [
    { project: "p", kind: "paint" },
    { project: "p", id: "x", kind: "edit", edit: null },
    { project: "p", id: "y", kind: "undo" },
  ];
  await room.append("p", strange as unknown as LogRecord[], 0).catch(() => {});
  const store = await openStore(room, "p", newId);
  store.edit("title", (job) => {
    job.title = "Front yard";
  });
  await store.settled();
  const again = await openStore(room, "p", newId);
  const left = (await room.read("p", 0)).filter(({ record }) => record === null).length;
  return { skipped: again.state.skipped, title: again.state.job.title, left };
}

export async function together(edits: number) {
  const rooms = [await openLogRoom("together"), await openLogRoom("together")];
  await rooms[0]!.append("p", [start("p")], 0);
  const stores = await Promise.all(rooms.map((room) => openStore(room, "p", newId)));
  await Promise.all(
    stores.map(async (store, tab) => {
      for (let i = 0; i < edits; i++) {
        store.edit("outline", (job) => void job.site.outline!.push([tab, i]));
        if (i % 3 === 0) await store.settled();
      }
      await store.settled();
    }),
  );
  await Promise.all(stores.map((store) => store.catchUp()));
  const fresh = await openStore(rooms[0]!, "p", newId);
  const agree = stores.every((store) => jobText(store.state.job) === jobText(fresh.state.job));
  return { kept: fresh.state.kept, agree };
}
