/** The planner, off the page: one ask at a time, every answer with its ask's number. Ended from outside when it takes too long. */
import { LANGUAGES } from "../../../words/languages.ts";
import type { Ask, Reply } from "./asks.ts";
import { drawAsk, newBench, planAsk, proofAsk, readAsk, replacedAsk } from "./work.ts";

const bench = newBench();
const port = self as unknown as {
  onmessage: ((event: MessageEvent<{ number: number; ask: Ask }>) => void) | null;
  postMessage(message: { number: number; reply: Reply }): void;
};

let turn: Promise<void> = Promise.resolve();
let plansWaiting = 0;

port.onmessage = ({ data: { number, ask } }) => {
  const say = (reply: Reply) => port.postMessage({ number, reply });
  if (ask.kind === "plan") plansWaiting++;
  turn = turn
    .then(() => obey(ask, say))
    .catch((trouble: unknown) =>
      say({ kind: "broken", detail: trouble instanceof Error ? trouble.message : String(trouble) }),
    );
};

async function obey(ask: Ask, say: (reply: Reply) => void): Promise<void> {
  if (ask.kind === "draw") return say({ kind: "drawing", drawing: drawAsk(bench, ask) });
  if (ask.kind === "papers") {
    // The writers of PDF, DXF and tables are loaded only now.
    const { papersAsk } = await import("./papers.ts");
    say({ kind: "stage", stage: "papers" });
    return say({ kind: "files", files: await papersAsk(bench, ask) });
  }
  const words = await LANGUAGES[ask.language]!.plan();
  if (ask.kind === "resume") {
    // What resumes stands on the writers too: loaded only now.
    const { resumeAsk } = await import("./resume.ts");
    return say({ kind: "resumed", resumed: resumeAsk(bench, ask, words, (stage) => say({ kind: "stage", stage })) });
  }
  if (ask.kind === "read") return say({ kind: "problems", problems: readAsk(ask.text, ask.file, words) });
  plansWaiting--;
  const answer = planAsk(bench, ask, words, (stage) => say({ kind: "stage", stage }));
  say({ kind: "answer", answer });
  if (!answer.ok) return;
  // The proof can wait until the newest job is planned: look whether one has come meanwhile.
  await new Promise((then) => setTimeout(then, 0));
  say({ kind: "stage", stage: "check" });
  if (plansWaiting > 0) return say({ kind: "proof", proof: null });
  const other = replacedAsk(bench, ask.draw);
  if (other) say({ kind: "answer", answer: other });
  say({ kind: "proof", proof: proofAsk(bench) });
}
