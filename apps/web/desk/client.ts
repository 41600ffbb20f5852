import type { Json } from "../../../core/edits/edit.ts";
import type { OutFile } from "../../../desk/outcome.ts";
import type { Answer, Ask, DrawAsk, Drawing, Proof, Reply, ResumedSaid, SaidProblem, StageSaid } from "./asks.ts";

/** Work shorter than this is not spoken of: words that flash help nobody. */
const SILENT_MS = 300;
/** After this long on an older job the worker is ended, so that the newer one is planned at once. */
const PATIENCE_MS = 400;

export interface DeskState {
  /** What the planner is at; null: nothing, or nothing that takes long enough to speak of. */
  stage: StageSaid | null;
  /** True until the newest job is planned and proved. */
  busy: boolean;
  answer: Answer | null;
  /** The version of the job that `answer` is of. */
  version: number;
  drawing: Drawing | null;
  /** Set where the planner itself came to a halt. */
  broken: string | null;
  stopped: boolean;
}
/** The planner, seen from the page. */
export interface Desk {
  readonly state: DeskState;
  listen(tell: () => void): () => void;
  /** Plans a job; of several in a row only the last is answered. */
  plan(version: number, text: string, language: string, draw: DrawAsk): void;
  /** Another layer or scale of the last plan. */
  draw(ask: DrawAsk): void;
  /** Papers of the last plan by file name: "setout.pdf". Rejects where it was stopped or the plan was not proved. */
  papers(names: readonly string[]): Promise<OutFile[]>;
  /** What stands in the way of a text being used as a job; none where it can be. */
  read(text: string, file: string, language: string): Promise<SaidProblem[]>;
  /** Keeps what is laid and plans the rest: `text` is the job the events belong to. */
  resume(text: string, events: readonly Json[], language: string): Promise<ResumedSaid>;
  /** Ends the work at once. The last answer stays. */
  stop(): void;
  /** Plans the last job once more, after a stop. */
  again(): void;
}
type Fonts = { regular: string[]; bold: string[] };
type PlanAsk = Ask & { kind: "plan" };

/** `spawn` makes a worker; `soon` calls back when the changes of one moment are over. */
export function openDesk(spawn: () => Worker, fonts: Fonts, soon: (then: () => void) => void): Desk {
  const tellers = new Set<() => void>();
  const awaited = new Map<number, { done: (answer: never) => void; failed: (trouble: Error) => void }>();
  let worker: Worker | null = null;
  let number = 0;
  let inWork: { number: number; version: number; ask: PlanAsk } | null = null;
  let next: { version: number; ask: PlanAsk } | null = null;
  let last: { version: number; ask: PlanAsk } | null = null;
  let drawing: { number: number; ask: DrawAsk } | null = null;
  let patience: ReturnType<typeof setTimeout> | undefined;
  let awaiting = false;
  let planned = false;
  let silent: ReturnType<typeof setTimeout> | undefined;
  let stage: StageSaid | null = null;
  /** The plan whose proof is still to come. */
  let proving: number | null = null;
  let state: DeskState = {
    stage: null,
    busy: true,
    answer: null,
    version: -1,
    drawing: null,
    broken: null,
    stopped: false,
  };

  return {
    get state() {
      return state;
    },
    listen(tell) {
      tellers.add(tell);
      return () => void tellers.delete(tell);
    },
    plan(version, text, language, draw) {
      next = { version, ask: { kind: "plan", text, file: "job", language, draw } };
      last = next;
      if (inWork && patience === undefined) patience = setTimeout(hurry, PATIENCE_MS);
      if (awaiting) return;
      awaiting = true;
      soon(() => {
        awaiting = false;
        if (!inWork) start();
      });
    },
    draw(ask) {
      if (next) next = { ...next, ask: { ...next.ask, draw: ask } };
      if (last) last = { ...last, ask: { ...last.ask, draw: ask } };
      if (!planned || (state.answer && !state.answer.ok)) return;
      drawing = { number: send({ kind: "draw", draw: ask }), ask };
    },
    papers: (names) => asked<OutFile[]>({ kind: "papers", names, fonts }),
    resume: (text, events, language) => asked<ResumedSaid>({ kind: "resume", text, events, language }),
    read: (text, file, language) => asked<SaidProblem[]>({ kind: "read", text, file, language }),
    stop() {
      end();
      at(null);
      put({ stopped: true, busy: false });
    },
    again() {
      if (!last || inWork) return;
      next = last;
      start();
    },
  };

  function asked<T>(ask: Ask): Promise<T> {
    return new Promise<T>((done, failed) => {
      awaited.set(send(ask), { done, failed });
    });
  }

  function start(): void {
    if (!next) return;
    const { version, ask } = next;
    next = null;
    proving = null;
    inWork = { number: send(ask), version, ask };
    at("read");
    put({ stopped: false, broken: null, busy: true });
  }

  function hurry(): void {
    patience = undefined;
    if (!inWork || !next) return;
    const newer = next;
    end();
    next = newer;
    start();
  }

  /** Ends the worker; what it was at is dropped, papers asked for are refused. */
  function end(): void {
    worker?.terminate();
    worker = null;
    planned = false;
    inWork = null;
    next = null;
    drawing = null;
    proving = null;
    clearTimeout(patience);
    patience = undefined;
    for (const { failed } of awaited.values()) failed(new Error("stopped"));
    awaited.clear();
  }

  function send(ask: Ask): number {
    if (!worker) {
      const mine = spawn();
      worker = mine;
      mine.onmessage = (event: MessageEvent<{ number: number; reply: Reply }>) => {
        if (mine === worker) hear(event.data.number, event.data.reply);
      };
      mine.onerror = (event) => {
        event.preventDefault();
        if (mine === worker) halt(event.message);
      };
      // A fresh worker knows no plan: papers and drawings need one first.
      if (ask.kind !== "plan" && last) worker.postMessage({ number: 0, ask: last.ask });
    }
    worker.postMessage({ number: ++number, ask });
    return number;
  }

  function hear(of: number, reply: Reply): void {
    const mine = inWork?.number === of;
    if (reply.kind === "stage") {
      if (mine || awaited.has(of) || proving === of) at(reply.stage);
    } else if (reply.kind === "answer") {
      planned = reply.answer.ok || planned;
      if (mine) answered(of, reply.answer);
      else if (proving === of) put({ answer: reply.answer, drawing: reply.answer.ok ? reply.answer.drawing : null });
    } else if (reply.kind === "proof") {
      if (proving === of) provedBy(reply.proof);
    } else if (reply.kind === "drawing") {
      if (drawing?.number === of) put({ drawing: reply.drawing });
    } else if (awaited.has(of)) {
      const { done, failed } = awaited.get(of)!;
      awaited.delete(of);
      if (reply.kind === "broken") failed(new Error(reply.detail));
      else done(payloadOf(reply) as never);
      if (!inWork) at(null);
    } else if (reply.kind === "broken" && (mine || proving === of)) halt(reply.detail);
  }

  function answered(of: number, answer: Answer): void {
    const { version, ask } = inWork!;
    const wanted = last?.ask.draw ?? ask.draw;
    inWork = null;
    clearTimeout(patience);
    patience = undefined;
    const drawn = answer.ok ? answer.drawing : state.drawing;
    proving = answer.ok && !next ? of : null;
    if (!answer.ok) at(null);
    put({ answer, version, drawing: drawn, broken: null, busy: answer.ok || next !== null });
    if (next) start();
    else if (answer.ok && wanted && drawn && (wanted.name !== drawn.name || wanted.scale !== drawn.scale))
      drawing = { number: send({ kind: "draw", draw: wanted }), ask: wanted };
  }

  function provedBy(proof: Proof | null): void {
    proving = null;
    at(null);
    if (proof && state.answer?.ok) put({ answer: { ...state.answer, ...proof }, busy: inWork !== null });
  }

  /** Notes what the planner is at; said only when it lasts. */
  function at(now: StageSaid | null): void {
    stage = now;
    if (now === null) {
      clearTimeout(silent);
      silent = undefined;
      if (state.stage !== null) put({ stage: null });
    } else if (state.stage !== null) put({ stage: now });
    else silent ??= setTimeout(() => put({ stage }), SILENT_MS);
  }

  function halt(detail: string): void {
    const newer = next;
    end();
    at(null);
    put({ broken: detail, busy: newer !== null });
    if (newer) {
      next = newer;
      start();
    }
  }

  function put(change: Partial<DeskState>): void {
    state = { ...state, ...change };
    for (const tell of tellers) tell();
  }
}

function payloadOf(reply: Reply): unknown {
  if (reply.kind === "files") return reply.files;
  if (reply.kind === "resumed") return reply.resumed;
  return reply.kind === "problems" ? reply.problems : undefined;
}
