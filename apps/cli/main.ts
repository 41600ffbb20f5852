#!/usr/bin/env node
import { Worker } from "node:worker_threads";
import { ENGINE } from "../../core/plan/engine.ts";
import type { Outcome } from "../../desk/outcome.ts";
import { type Args, readArgs } from "./args.ts";
import { FileTrouble, readText, writeAll } from "./files.ts";
import type { FromWorker, Order } from "./order.ts";
import { serve } from "./serve.ts";
import { forTerminal } from "./terminal.ts";

const STOPPED = 130;

async function main(): Promise<number> {
  const argv = process.argv.slice(2);
  if (argv[0] === "serve" && !argv.some((word) => word === "--help" || word === "-h")) return serve(argv.slice(1));
  const parsed = readArgs(argv, ENGINE);
  if (parsed.kind === "say") {
    process.stdout.write(parsed.text);
    return 0;
  }
  if (parsed.kind === "wrong") {
    process.stderr.write(`${parsed.sentences.join("\n")}\n`);
    return 2;
  }
  try {
    return await run(parsed.args);
  } catch (cause) {
    if (cause instanceof FileTrouble) {
      process.stderr.write(`${cause.message}\n`);
      return 2;
    }
    throw cause;
  }
}

async function run(args: Args): Promise<number> {
  const texts = args.command === "schema" ? [{ name: "schema", text: args.inputs[0]! }] : args.inputs.map(readText);
  const answer = await inWorker({ command: args.command, texts }, (stage) => {
    if (!args.quiet && !args.json && process.stderr.isTTY) process.stderr.write(`  ${stage} ...\n`);
  });
  if (answer === "stopped") {
    process.stderr.write("Stopped. Nothing was written.\n");
    return STOPPED;
  }
  return deliver(args, answer);
}

function deliver(args: Args, outcome: Outcome): number {
  if (outcome.problems.length > 0) process.stderr.write(`${forTerminal(outcome.problems.join("\n"))}\n`);
  const mayWrite = outcome.exit === 0 || outcome.exit === 3;
  const written = args.out !== null && mayWrite ? writeAll(args.out, outcome.files) : [];
  const talk = [...outcome.lines, ...written.map((path) => `  ${path}`)];
  if (args.json) {
    process.stdout.write(`${JSON.stringify(outcome.json, null, 1)}\n`);
    if (!args.quiet && talk.length > 0) process.stderr.write(`${forTerminal(talk.join("\n"))}\n`);
  } else if (talk.length > 0) process.stdout.write(`${forTerminal(talk.join("\n"))}\n`);
  return outcome.exit;
}

/** Runs the order beside this thread, so that Ctrl-C can end it at any moment. */
function inWorker(order: Order, onStage: (stage: string) => void): Promise<Outcome | "stopped"> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL("./worker.js", import.meta.url), { workerData: order });
    const stop = (): void => {
      void worker.terminate();
      resolve("stopped");
    };
    process.once("SIGINT", stop);
    process.once("SIGTERM", stop);
    worker.on("message", (message: FromWorker) => {
      if (message.kind === "stage") onStage(message.stage);
      else resolve(message.outcome);
    });
    worker.once("error", reject);
    worker.once("exit", () => {
      process.off("SIGINT", stop);
      process.off("SIGTERM", stop);
    });
  });
}

main().then(
  (code) => {
    process.exitCode = code;
  },
  (cause: unknown) => {
    const detail = cause instanceof Error ? (cause.stack ?? cause.message) : String(cause);
    process.stderr.write(
      `Rowline stopped on a fault of its own; your files are as they were. Please report it with the job file.\n${detail}\n`,
    );
    process.exitCode = 1;
  },
);
