import fc from "fast-check";
import { expect, test } from "vitest";
import { asJson, type JobDraft, jobText } from "../../../core/edits/draft.ts";
import type { LogRoom } from "./log-room.ts";
import { memoryRoom } from "./memory.ts";
import { openStore, type Store } from "./store.ts";

const FIRST: JobDraft = {
  format: "rowline/job@1",
  title: "Yard",
  site: {
    outline: [
      [0, 0],
      [5000, 0],
      [5000, 3000],
      [0, 3000],
    ],
  },
};
type Act =
  | { do: "title"; to: string }
  | { do: "vertex"; at: number; to: number }
  | { do: "insert"; at: number }
  | { do: "drop"; at: number }
  | { do: "bond"; to: number | null }
  | { do: "unset" }
  | { do: "undo" | "redo" | "event" | "reload" | "settle" };
const small = fc.integer({ min: 0, max: 9 });
const act: fc.Arbitrary<Act> = fc.oneof(
  fc.record({ do: fc.constant("title" as const), to: fc.string({ maxLength: 4 }) }),
  fc.record({ do: fc.constant("vertex" as const), at: small, to: small }),
  fc.record({ do: fc.constant("insert" as const), at: small }),
  fc.record({ do: fc.constant("drop" as const), at: small }),
  fc.record({ do: fc.constant("bond" as const), to: fc.option(small) }),
  fc.record({ do: fc.constant("unset" as const) }),
  fc.record({ do: fc.constantFrom("undo", "undo", "redo", "event", "reload", "settle") }) as fc.Arbitrary<Act>,
);

function alter(job: JobDraft, act: Act): void {
  const outline = job.site.outline!;
  if (act.do === "title") job.title = act.to;
  if (act.do === "vertex" && outline[act.at]) outline[act.at]![0] = act.to;
  if (act.do === "insert") outline.splice(act.at, 0, [act.at, act.at]);
  if (act.do === "drop") outline.splice(act.at, 1);
  if (act.do === "bond") job.bond = { ...job.bond, angle: act.to };
  if (act.do === "unset") delete job.bond;
}

async function started(room: LogRoom): Promise<void> {
  await room.append("p", [{ id: "0", project: "p", kind: "start", job: asJson(FIRST) }], 0);
}
function ids(prefix: string): () => string {
  let count = 0;
  return () => `${prefix}${++count}`;
}

test("1,000 random sequences of edits, undo, redo and reload end as a pile of whole copies says, to the byte", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(act, { maxLength: 40 }), async (acts) => {
      const room = memoryRoom();
      await started(room);
      const newId = ids("a");
      let store = await openStore(room, "p", newId);
      // The model keeps whole texts: nothing of edits, inverses or logs.
      const texts = [jobText(FIRST)];
      let at = 0;
      let events = 0;
      for (const one of acts) {
        if (one.do === "undo") {
          store.undo();
          at = Math.max(0, at - 1);
        } else if (one.do === "redo") {
          store.redo();
          at = Math.min(texts.length - 1, at + 1);
        } else if (one.do === "event") {
          store.event({ n: ++events });
        } else if (one.do === "settle") await store.settled();
        else if (one.do === "reload") {
          await store.settled();
          store.close();
          store = await openStore(room, "p", newId);
        } else {
          const copy = JSON.parse(texts[at]!) as JobDraft;
          alter(copy, one);
          if (jobText(copy) !== texts[at]) texts.splice(++at, texts.length, jobText(copy));
          store.edit("outline", (job) => alter(job, one));
        }
        expect(jobText(store.state.job)).toBe(texts[at]);
      }
      await store.settled();
      const reopened = await openStore(room, "p", newId);
      expect(jobText(reopened.state.job)).toBe(texts[at]);
      expect(reopened.state.events).toHaveLength(events);
      expect([reopened.state.undo !== null, reopened.state.redo !== null]).toEqual([at > 0, at < texts.length - 1]);
      while (reopened.state.undo) reopened.undo();
      expect(jobText(reopened.state.job)).toBe(jobText(FIRST));
      await reopened.settled();
    }),
    { numRuns: 1_000, seed: 7 },
  );
});

test("two tabs on one job, in any interleaving, end with the same bytes, also after a reload, and lose no record", async () => {
  const turn = fc.tuple(fc.boolean(), act);
  await fc.assert(
    fc.asyncProperty(fc.array(turn, { maxLength: 40 }), async (turns) => {
      const rows: Parameters<typeof memoryRoom>[0] = [];
      const room = memoryRoom(rows);
      await started(room);
      const heard = new Set<(project: string) => void>();
      const tabs = {
        tell: (project: string) => {
          for (const hear of heard) hear(project);
        },
        listen: (hear: (project: string) => void) => {
          heard.add(hear);
          return () => void heard.delete(hear);
        },
      };
      const stores: [Store, Store] = [
        await openStore(room, "p", ids("a"), tabs),
        await openStore(room, "p", ids("b"), tabs),
      ];
      for (const [first, one] of turns) {
        const store = stores[first ? 0 : 1];
        if (one.do === "undo") store.undo();
        else if (one.do === "redo") store.redo();
        else if (one.do === "event") store.event({});
        else if (one.do === "settle" || one.do === "reload") await store.settled();
        else store.edit("outline", (job) => alter(job, one));
      }
      for (let i = 0; i < 2; i++) for (const store of stores) await store.catchUp();
      const fresh = await openStore(room, "p", ids("c"));
      expect(jobText(stores[0].state.job)).toBe(jobText(fresh.state.job));
      expect(jobText(stores[1].state.job)).toBe(jobText(fresh.state.job));
      expect(fresh.state.kept).toBe(rows.length);
      // Undo without end, by one hand after the other, leads back to the beginning.
      while (fresh.state.undo) fresh.undo();
      expect(jobText(fresh.state.job)).toBe(jobText(FIRST));
      await fresh.settled();
    }),
    { numRuns: 300, seed: 11 },
  );
});

test("a tab that writes nothing sees what the other did", async () => {
  const room = memoryRoom();
  await started(room);
  const [one, other] = [await openStore(room, "p", ids("a")), await openStore(room, "p", ids("b"))];
  one.edit("title", (job) => {
    job.title = "Back yard";
  });
  await one.settled();
  await other.catchUp();
  expect(other.state.job.title).toBe("Back yard");
  expect(other.state.undo).toBe("title");
});

test("torn and foreign records are stepped over, counted and left where they are", async () => {
  const rows: { seq: number; project: string; text: string }[] = [];
  const room = memoryRoom(rows);
  await started(room);
  for (const text of [
    '{"id":"x","project":"p","kind":"paint"}',
    '{"id":"y","project":"p","ki',
    '{"kind":"edit","id":"z","project":"p","edit":{"name":"title","changes":[{"kind":"swap","at":[]}]}}',
  ])
    rows.push({ seq: rows.length + 1, project: "p", text });
  const before = rows.map((row) => row.text);
  const store = await openStore(room, "p", ids("a"));
  expect(store.state.skipped).toBe(3);
  store.edit("title", (job) => {
    job.title = "Front yard";
  });
  await store.settled();
  expect(rows.slice(0, 4).map((row) => row.text)).toEqual(before);
  expect((await openStore(room, "p", ids("b"))).state.job.title).toBe("Front yard");
});

test("a database that refuses is said to be stuck, keeps what waits, and is asked again; an answer that got lost counts once", async () => {
  const rows: { seq: number; project: string; text: string }[] = [];
  const inner = memoryRoom(rows);
  await started(inner);
  let refuse: "no" | "before" | "after" = "no";
  const room: LogRoom = {
    ...inner,
    async append(project, records, after) {
      if (refuse === "before") throw new Error("full");
      const kept = await inner.append(project, records, after);
      if (refuse === "after") throw new Error("answer lost");
      return kept;
    },
  };
  const store = await openStore(room, "p", ids("a"));
  const insert = () => store.edit("outline", (job) => void job.site.outline!.push([1, 1]));
  refuse = "before";
  insert();
  await store.settled();
  expect([store.state.keeping, store.state.kept, rows.length]).toEqual(["stuck", 1, 1]);
  refuse = "after";
  insert();
  await store.settled();
  expect([store.state.keeping, rows.length]).toEqual(["stuck", 3]);
  refuse = "no";
  insert();
  await store.settled();
  expect([store.state.keeping, store.state.kept]).toEqual(["saved", 4]);
  expect(store.state.job.site.outline).toHaveLength(7);
  expect(jobText((await openStore(inner, "p", ids("b"))).state.job)).toBe(jobText(store.state.job));
});
