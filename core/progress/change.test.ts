import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apply, type Change, changeOf, invert, type Live, liveOf } from "./change.ts";
import { readProgress } from "./read.ts";
import { exportProgressSchema, type ProgressEvent } from "./schema.ts";
import { stateOf } from "./state.ts";

const HASH = "a".repeat(64);
const file = (events: unknown[]) => JSON.stringify({ format: "rowline/progress@1", job: HASH, plan: HASH, events });
const base = { when: "2026-05-14T09:30:00Z", by: "Ada" };
const codes = (events: unknown[]) => {
  const read = readProgress(file(events), "p");
  return read.ok ? [] : read.problems.map((one) => [one.code, one.place]);
};

const mm = fc.integer({ min: -5000, max: 5000 });
const piece = fc.integer({ min: 1, max: 40 }).map((n) => `p${n}`);
const what = fc.oneof(
  fc.record({ kind: fc.constant("line" as const), row: fc.nat(30), v: fc.tuple(mm, mm) }),
  fc.record({ kind: fc.constant("gap" as const), joint: fc.tuple(piece, piece), mm: fc.nat(20) }),
  fc.record({ kind: fc.constant("broken" as const), board: fc.nat(9).map((n) => `b${n}`) }),
  fc.record({ kind: fc.constant("broken" as const), piece }),
  fc.record({
    kind: fc.constant("offcut" as const),
    length: fc.integer({ min: 1, max: 1500 }),
    width: fc.integer({ min: 1, max: 145 }),
  }),
  fc.record({ kind: fc.constant("hole" as const), clip: fc.nat(99).map((n) => `c${n}`), at: fc.tuple(mm, mm) }),
  fc.record({
    kind: fc.constant("wall" as const),
    side: fc.nat(5),
    points: fc.array(fc.tuple(mm, mm), { minLength: 2, maxLength: 4 }),
  }),
  fc.record({ kind: fc.constant("level" as const), at: fc.tuple(mm, mm, mm) }),
);
/** A sound run of events: pieces laid once, undone events undone once. */
const runs = fc.array(fc.tuple(fc.nat(9), fc.nat(), what), { maxLength: 40 }).map((steps) => {
  const events: ProgressEvent[] = [];
  const open: string[] = [];
  const pieces = new Map<string, string>();
  steps.forEach(([dice, pick, one], i) => {
    const head = { ...base, id: `e${i}` };
    if (dice < 2 && open.length > 0) {
      const [event] = open.splice(pick % open.length, 1);
      events.push({ ...head, kind: "undo", event: event! });
      for (const [name, id] of pieces) if (id === event) pieces.delete(name);
      return;
    }
    const name = `p${pick % 25}`;
    if (dice < 6 && !pieces.has(name)) {
      pieces.set(name, head.id);
      events.push({ ...head, kind: "laid", piece: name });
    } else events.push({ ...head, ...one } as ProgressEvent);
    open.push(head.id);
  });
  return events;
});
const settings = { seed: 271, numRuns: 400 };

/** Every change of a run, with what counted before it. */
function stepsOf(events: readonly ProgressEvent[]): { before: Live; change: Change }[] {
  let live: Live = [];
  return events.map((event) => {
    const change = changeOf(live, event)!;
    const before = live;
    live = apply(live, change);
    return { before, change };
  });
}

describe("a change is a value", () => {
  test("applied and taken back it leaves what was there", () => {
    fc.assert(
      fc.property(runs, (events) => {
        for (const { before, change } of stepsOf(events))
          expect(apply(apply(before, change), invert(change))).toEqual(before);
      }),
      settings,
    );
  });
  test("turned round twice it is itself", () => {
    fc.assert(
      fc.property(runs, (events) => {
        for (const { change } of stepsOf(events)) expect(invert(invert(change))).toEqual(change);
      }),
      settings,
    );
  });
  test("written and read again it does the same", () => {
    fc.assert(
      fc.property(runs, (events) => {
        for (const { before, change } of stepsOf(events)) {
          const again = JSON.parse(JSON.stringify(change)) as Change;
          expect(again).toEqual(change);
          expect(apply(before, again)).toEqual(apply(before, change));
        }
      }),
      settings,
    );
  });
  test("all of a run taken back from the end leaves nothing", () => {
    fc.assert(
      fc.property(runs, (events) => {
        const steps = stepsOf(events);
        let live = liveOf(events);
        for (const { change } of [...steps].reverse()) live = apply(live, invert(change));
        expect(live).toEqual([]);
      }),
      settings,
    );
  });
  test("one by one and all at once are the same; what was undone counts as if never entered", () => {
    fc.assert(
      fc.property(runs, (events) => {
        const steps = stepsOf(events);
        const last = steps[steps.length - 1];
        expect(liveOf(events)).toEqual(last ? apply(last.before, last.change) : []);
        const undone = new Set(events.flatMap((event) => (event.kind === "undo" ? [event.event] : [])));
        const never = events.filter((event) => event.kind !== "undo" && !undone.has(event.id));
        expect(liveOf(events)).toEqual(never);
        expect(stateOf(liveOf(events))).toEqual(stateOf(never));
      }),
      settings,
    );
  });
  test("a removal that does not fit is refused", () => {
    const [a, b] = [1, 2].map((n): ProgressEvent => ({ ...base, kind: "laid", id: `e${n}`, piece: `p${n}` }));
    expect(() => apply([a!], { kind: "remove", at: 0, event: b! })).toThrow();
    expect(changeOf([], { ...base, kind: "undo", id: "u", event: "e1" })).toBeNull();
  });
});

describe("the file", () => {
  test("every sound run is read as it was written, in its order", () => {
    fc.assert(
      fc.property(runs, (events) => {
        const read = readProgress(file(events), "p");
        expect(read.ok && read.value.events).toEqual(events);
      }),
      settings,
    );
  });
  test("an unknown kind names the nearest; a missing kind says so", () => {
    const read = readProgress(
      file([
        { ...base, id: "e", kind: "layed", piece: "p1" },
        { ...base, id: "f", piece: "p1" },
      ]),
      "p",
    );
    expect(read.ok).toBe(false);
    if (!read.ok) {
      expect(read.problems).toMatchObject([
        { code: "wrongChoice", place: "events[0].kind", data: { nearest: "laid" } },
        { code: "missing", place: "events[1].kind" },
      ]);
    }
  });
  test("fields are those of the event's own kind", () => {
    expect(codes([{ ...base, id: "e", kind: "laid", clip: "c1" }])).toEqual([
      ["missing", "events[0].piece"],
      ["unknownKey", "events[0].clip"],
    ]);
    expect(codes([{ ...base, id: "e", kind: "laid", piece: "p1", "x-photo": "a.jpg" }])).toEqual([]);
  });
  test("what a schema cannot say is told of too, all at once", () => {
    const undo = (id: string, event: string) => ({ ...base, id, kind: "undo", event });
    const laid = (id: string, name: string) => ({ ...base, id, kind: "laid", piece: name });
    const found = codes([
      laid("a", "p1"),
      laid("a", "p2"),
      laid("b", "p1"),
      undo("c", "a"),
      undo("d", "a"),
      undo("e", "c"),
      undo("f", "z"),
      undo("g", "h"),
      laid("h", "p1"),
      { ...base, id: "i", kind: "broken" },
    ]);
    expect(found.map((one) => one[0])).toEqual([
      "eventTwice",
      "laidTwice",
      "undoTwice",
      "undoOfUndo",
      "undoOfNothing",
      "undoOfLater",
      "brokenWhat",
    ]);
  });
  test("its schema is published", () => {
    expect(exportProgressSchema()).toMatchObject({ $id: "urn:rowline:progress:1", type: "object" });
  });
});
