import { existsSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { staticServer } from "./static.ts";

const PORT = 4173;

export interface Where {
  port: number;
  host: string;
}

/** `rowline serve [--port N] [--host H]`: serves the browser app until stopped. Answers an exit code. */
export async function serve(argv: string[]): Promise<number> {
  const where = readWhere(argv);
  if ("sentences" in where) {
    process.stderr.write(`${where.sentences.join("\n")}\n`);
    return 2;
  }
  const folder = webFolder();
  if (!existsSync(join(folder, "index.html"))) {
    process.stderr.write(`The app is not built: ${folder} has no index.html. Run npm run build, then start again.\n`);
    return 2;
  }
  const server = staticServer(folder);
  const trouble = await new Promise<NodeJS.ErrnoException | null>((resolve) => {
    server.once("error", resolve);
    server.listen(where.port, where.host, () => resolve(null));
  });
  if (trouble) {
    process.stderr.write(`${sentenceFor(trouble, where)}\n`);
    return 2;
  }
  const { port } = server.address() as AddressInfo;
  const name = where.host.includes(":") ? `[${where.host}]` : where.host;
  process.stdout.write(`Rowline is at http://${name}:${port}/ (Ctrl-C stops it)\n`);
  await new Promise<void>((resolve) => {
    process.once("SIGINT", resolve);
    process.once("SIGTERM", resolve);
  });
  server.closeAllConnections();
  server.close();
  return 0;
}

/** Reads the options; every complaint at once. */
export function readWhere(argv: string[]): Where | { sentences: string[] } {
  const { values, positionals } = parseArgs({
    args: argv,
    options: { port: { type: "string" }, host: { type: "string" } },
    allowPositionals: true,
    strict: false,
  });
  const sentences: string[] = [];
  for (const name of Object.keys(values))
    if (name !== "port" && name !== "host")
      sentences.push(`There is no option --${name}. serve takes --port and --host.`);
  if (positionals.length > 0) sentences.push(`serve takes no file; ${positionals.join(" ")} was given.`);
  const port = values.port === undefined ? PORT : Number(values.port);
  if (values.port === "" || values.port === true || !Number.isInteger(port) || port < 0 || port > 65_535)
    sentences.push("--port needs a whole number from 0 to 65535 (0: any free one).");
  const host = values.host === undefined ? "127.0.0.1" : values.host;
  if (typeof host !== "string" || host === "") sentences.push("--host needs a name or an address: --host 0.0.0.0.");
  return sentences.length > 0 ? { sentences } : { port, host: host as string };
}

/** The built app: dist/web, beside the built command line (dist/apps/cli). */
function webFolder(): string {
  return fileURLToPath(new URL("../../web", import.meta.url));
}

function sentenceFor(trouble: NodeJS.ErrnoException, { port, host }: Where): string {
  if (trouble.code === "EADDRINUSE") return `Port ${port} is taken. Name another: rowline serve --port ${port + 1}.`;
  if (trouble.code === "EACCES") return `Port ${port} may not be used. Name one above 1023.`;
  if (trouble.code === "EADDRNOTAVAIL" || trouble.code === "ENOTFOUND")
    return `This machine has no address ${host}. Leave --host out, or name one of its own.`;
  return `The server could not start (${trouble.code ?? trouble.message}).`;
}
