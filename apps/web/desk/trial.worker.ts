/** The planner for trials: what a set-out would be, while it is being moved, and ways side by side. Nothing here is proved or kept. */
import { LANGUAGES } from "../../../words/languages.ts";
import { type TrialAsk, type TrialReply, tryOut } from "./trial.ts";

const port = self as unknown as {
  onmessage: ((event: MessageEvent<{ number: number; ask: TrialAsk }>) => void) | null;
  postMessage(message: { number: number; reply: TrialReply }): void;
};

port.onmessage = async ({ data: { number, ask } }) => {
  const words = await LANGUAGES[ask.language]!.plan();
  try {
    tryOut(ask, words, (reply) => port.postMessage({ number, reply }));
  } catch (trouble) {
    const detail = trouble instanceof Error ? trouble.message : String(trouble);
    port.postMessage({ number, reply: { kind: "broken", detail } });
  }
};
