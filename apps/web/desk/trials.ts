import type { TrialAsk, TrialReply } from "./trial.ts";

/** Trials, seen from the page: a worker of their own, so that what is planned for good never waits for them. */
export interface Trials {
  /** Plans a job that is only being tried. Of several in a row the last is answered; `hear` is called once at most. */
  live(ask: TrialAsk & { kind: "live" }, hear: (reply: TrialReply) => void): void;
  /** Plans all ways; `hear` is called with each. Answers how to stop it. */
  variants(ask: TrialAsk & { kind: "variants" }, hear: (reply: TrialReply) => void): () => void;
}

/** `spawn` makes a worker, when first needed. */
export function openTrials(spawn: () => Worker): Trials {
  const live = oneAtATime(spawn);
  return {
    live: (ask, hear) => live(ask, hear),
    variants(ask, hear) {
      const worker = spawn();
      worker.onmessage = (event: MessageEvent<{ reply: TrialReply }>) => {
        const { reply } = event.data;
        if (reply.kind !== "variants" || reply.left === 0) worker.terminate();
        hear(reply);
      };
      worker.onerror = (event) => {
        event.preventDefault();
        worker.terminate();
        hear({ kind: "broken", detail: event.message });
      };
      worker.postMessage({ number: 0, ask });
      return () => worker.terminate();
    },
  };
}

/** One ask in work, the newest waiting; those between are never planned. */
function oneAtATime(spawn: () => Worker) {
  let worker: Worker | null = null;
  let number = 0;
  let busy: ((reply: TrialReply) => void) | null = null;
  let waiting: { ask: TrialAsk; hear: (reply: TrialReply) => void } | null = null;
  const send = (ask: TrialAsk, hear: (reply: TrialReply) => void): void => {
    worker ??= start();
    busy = hear;
    worker.postMessage({ number: ++number, ask });
  };
  const done = (reply: TrialReply): void => {
    const hear = busy;
    busy = null;
    const next = waiting;
    waiting = null;
    if (next) send(next.ask, next.hear);
    hear?.(reply);
  };
  const start = (): Worker => {
    const mine = spawn();
    mine.onmessage = (event: MessageEvent<{ number: number; reply: TrialReply }>) => {
      if (mine === worker && event.data.number === number) done(event.data.reply);
    };
    mine.onerror = (event) => {
      event.preventDefault();
      mine.terminate();
      worker = null;
      done({ kind: "broken", detail: event.message });
    };
    return mine;
  };
  return (ask: TrialAsk, hear: (reply: TrialReply) => void): void => {
    if (busy) waiting = { ask, hear };
    else send(ask, hear);
  };
}
