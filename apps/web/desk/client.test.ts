import { expect, test, vi } from "vitest";
import type { Answer, Ask, DrawAsk, Reply } from "./asks.ts";
import { openDesk } from "./client.ts";

const DRAW: DrawAsk = { name: "setout", scale: 50, turnDeg: 0 };
const PROOF = { checked: true, proved: true, summary: "", breaches: [], planHash: "h" };

/** A worker that answers only when told to. */
class Puppet {
  heard: { number: number; ask: Ask }[] = [];
  ended = false;
  onmessage: ((event: MessageEvent) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  postMessage(message: { number: number; ask: Ask }): void {
    this.heard.push(message);
  }
  terminate(): void {
    this.ended = true;
  }
  say(number: number, reply: Reply): void {
    this.onmessage?.({ data: { number, reply } } as MessageEvent);
  }
  plans(): string[] {
    return this.heard.flatMap(({ ask }) => (ask.kind === "plan" ? [ask.text] : []));
  }
  answer(text: string): void {
    const { number } = [...this.heard].reverse().find(({ ask }) => ask.kind === "plan" && ask.text === text)!;
    const answer = { ok: true, drawing: { ...DRAW, items: [] }, checked: false, summary: text } as unknown as Answer;
    this.say(number, { kind: "answer", answer });
  }
}
function desk() {
  const puppets: Puppet[] = [];
  const frames: (() => void)[] = [];
  const opened = openDesk(
    () => {
      puppets.push(new Puppet());
      return puppets.at(-1) as unknown as Worker;
    },
    { regular: [], bold: [] },
    (then) => frames.push(then),
  );
  const frame = () => {
    for (const then of frames.splice(0)) then();
  };
  const plan = (version: number) => opened.plan(version, `job ${version}`, "en", DRAW);
  return { opened, puppets, frame, plan };
}

test("several changes in a frame are one ask: the last", () => {
  const { puppets, frame, plan } = desk();
  for (const version of [1, 2, 3]) plan(version);
  expect(puppets).toHaveLength(0);
  frame();
  expect(puppets[0]!.plans()).toEqual(["job 3"]);
});

test("while one is planned the newest waits, those between are never planned, and the answer tells its version", () => {
  const { opened, puppets, frame, plan } = desk();
  plan(1);
  frame();
  for (const version of [2, 3, 4]) {
    plan(version);
    frame();
  }
  puppets[0]!.answer("job 1");
  expect([opened.state.version, opened.state.busy]).toEqual([1, true]);
  expect(puppets[0]!.plans()).toEqual(["job 1", "job 4"]);
  puppets[0]!.answer("job 4");
  expect(opened.state.version).toBe(4);
  puppets[0]!.answer("job 1");
  expect(opened.state.version).toBe(4);
});

test("the proof joins its own plan only", () => {
  const { opened, puppets, frame, plan } = desk();
  plan(1);
  frame();
  const first = puppets[0]!.heard[0]!.number;
  puppets[0]!.answer("job 1");
  plan(2);
  frame();
  puppets[0]!.answer("job 2");
  puppets[0]!.say(first, { kind: "proof", proof: PROOF });
  expect(opened.state.answer).toMatchObject({ checked: false });
  expect(opened.state.busy).toBe(true);
  puppets[0]!.say(puppets[0]!.heard[1]!.number, { kind: "proof", proof: PROOF });
  expect(opened.state.answer).toMatchObject({ checked: true, planHash: "h" });
  expect(opened.state.busy).toBe(false);
});

test("long work on an older job is ended so that the newer is planned at once; what the old one still says is dropped", () => {
  vi.useFakeTimers();
  const { opened, puppets, frame, plan } = desk();
  plan(1);
  frame();
  plan(2);
  frame();
  vi.advanceTimersByTime(1_000);
  expect(puppets.map(({ ended }) => ended)).toEqual([true, false]);
  expect(puppets[1]!.plans()).toEqual(["job 2"]);
  puppets[0]!.answer("job 1");
  expect(opened.state.version).toBe(-1);
  puppets[1]!.answer("job 2");
  expect(opened.state.version).toBe(2);
  vi.useRealTimers();
});

test("work is spoken of only when it lasts; stop ends it, keeps the last answer, refuses what was awaited; again plans once more", async () => {
  vi.useFakeTimers();
  const { opened, puppets, frame, plan } = desk();
  plan(1);
  frame();
  puppets[0]!.answer("job 1");
  plan(2);
  frame();
  expect(opened.state.stage).toBeNull();
  vi.advanceTimersByTime(350);
  expect(opened.state.stage).toBe("read");
  puppets[0]!.say(2, { kind: "stage", stage: "fixing" });
  expect(opened.state.stage).toBe("fixing");
  const paper = opened.papers(["setout.pdf"]);
  opened.stop();
  await expect(paper).rejects.toThrow("stopped");
  expect(puppets[0]!.ended).toBe(true);
  expect(opened.state).toMatchObject({ stage: null, stopped: true, version: 1, busy: false });
  opened.again();
  expect(puppets[1]!.plans()).toEqual(["job 2"]);
  puppets[1]!.answer("job 2");
  expect(opened.state).toMatchObject({ stopped: false, version: 2 });
  vi.useRealTimers();
});

test("a planner that comes to a halt is said so; the next change starts a new one; papers then plan first", async () => {
  const { opened, puppets, frame, plan } = desk();
  plan(1);
  frame();
  puppets[0]!.onerror?.({ message: "out of memory", preventDefault() {} } as ErrorEvent);
  expect(opened.state).toMatchObject({ broken: "out of memory", busy: false });
  const paper = opened.papers(["setout.pdf"]);
  expect(puppets[1]!.heard.map(({ ask }) => ask.kind)).toEqual(["plan", "papers"]);
  puppets[1]!.say(puppets[1]!.heard[1]!.number, { kind: "files", files: [{ name: "setout.pdf", bytes: "x" }] });
  expect(await paper).toHaveLength(1);
  plan(2);
  frame();
  puppets[1]!.answer("job 2");
  expect(opened.state).toMatchObject({ broken: null, version: 2 });
});
