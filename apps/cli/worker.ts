import { parentPort, workerData } from "node:worker_threads";
import { judgeBase } from "../../desk/base.ts";
import { readSurveyFile } from "../../desk/bring.ts";
import { checkFiles } from "../../desk/check.ts";
import type { Outcome } from "../../desk/outcome.ts";
import { planJob } from "../../desk/plan.ts";
import { resumeFiles } from "../../desk/resume.ts";
import { printSchema } from "../../desk/schema.ts";
import { bring } from "../../words/en/app/bring.ts";
import { en } from "../../words/en/index.ts";
import { readFonts } from "./fonts.ts";
import type { FromWorker, Order } from "./order.ts";

const send = (message: FromWorker): void => parentPort!.postMessage(message);

async function obey({ command, texts }: Order): Promise<Outcome> {
  const onStage = (stage: string): void => send({ kind: "stage", stage });
  const [first, second, third] = texts;
  switch (command) {
    case "base":
      return judgeBase(first!, en);
    case "plan":
      return planJob(first!, en, readFonts(), onStage);
    case "check":
      return checkFiles(first!, second!, en);
    case "resume":
      return resumeFiles(first!, second!, third!, en, readFonts(), onStage);
    case "read":
      return readSurveyFile(first!, bring);
    case "schema":
      return printSchema(first!.text, en);
  }
}

send({ kind: "done", outcome: await obey(workerData as Order) });
