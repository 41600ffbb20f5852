import { parseArgs } from "node:util";

export const USAGE = `rowline: from a site survey to a checked plan and the papers to lay it

  rowline base JOB                           judge the base and say how to make it right
  rowline plan JOB -o DIR                    plan the whole job, prove it, write plan.json and every paper
  rowline check JOB PLAN                     prove a plan file again from the two files alone
  rowline resume JOB PLAN PROGRESS -o DIR    keep what is laid, plan the rest
  rowline read FILE                          say what a surveyor's file holds: CSV, XYZ, DXF, LandXML, GeoJSON
  rowline schema job|plan|progress           print the JSON Schema of a file
  rowline serve [--port N] [--host H]        serve the browser app, on this machine alone unless --host says more

  --json      the machine form alone on stdout; talk goes to stderr
  -o DIR      where the papers go; made if it is not there
  --quiet     no progress on stderr
  --version   the version
  --help      this page
  -           as JOB reads stdin

Exit: 0 done; 1 internal fault; 2 the input is wrong, nothing written; 3 done, and a finding says stop; 130 stopped by you.
Rowline proves the drawing, not the building. Local codes and licensed practice decide.
`;

export const COMMANDS = ["base", "plan", "check", "resume", "read", "schema"] as const;
export type CommandName = (typeof COMMANDS)[number];
export interface Args {
  command: CommandName;
  inputs: string[];
  out: string | null;
  json: boolean;
  quiet: boolean;
}
export type Parsed =
  | { kind: "run"; args: Args }
  | { kind: "say"; text: string }
  | { kind: "wrong"; sentences: string[] };

const INPUTS: Record<CommandName, string[]> = {
  base: ["JOB"],
  plan: ["JOB"],
  check: ["JOB", "PLAN"],
  resume: ["JOB", "PLAN", "PROGRESS"],
  read: ["FILE"],
  schema: ["job|plan|progress"],
};
const NEEDS_OUT: readonly CommandName[] = ["plan", "resume"];

/** Reads the command line; every complaint at once, as sentences that say what to do. */
export function readArgs(argv: string[], version: string): Parsed {
  const wrong: string[] = [];
  const parsed = parseArgs({
    args: argv,
    options: {
      out: { type: "string", short: "o" },
      json: { type: "boolean" },
      quiet: { type: "boolean", short: "q" },
      help: { type: "boolean", short: "h" },
      version: { type: "boolean", short: "V" },
    },
    allowPositionals: true,
    strict: false,
  });
  const { values, positionals } = parsed;
  if (values.help || (argv.length === 0 && !values.version)) return { kind: "say", text: USAGE };
  if (values.version) return { kind: "say", text: `${version}\n` };
  const known = ["out", "json", "quiet", "help", "version"];
  for (const name of Object.keys(values))
    if (!known.includes(name)) wrong.push(`There is no option --${name}. See rowline --help.`);
  if (values.out === true) wrong.push("-o needs a folder: rowline plan JOB -o DIR.");
  const [word = "", ...inputs] = positionals;
  const command = COMMANDS.find((name) => name === word);
  if (!command) {
    wrong.push(
      word === ""
        ? "Say what to do: base, plan, check, resume, read, schema or serve. See rowline --help."
        : `There is no command "${word}". There are ${COMMANDS.join(", ")}, serve. See rowline --help.`,
    );
    return { kind: "wrong", sentences: wrong };
  }
  const wanted = INPUTS[command];
  if (inputs.length !== wanted.length)
    wrong.push(
      `rowline ${command} wants ${wanted.join(" ")}; ${inputs.length === 0 ? "nothing was" : `${inputs.length} ${inputs.length === 1 ? "name was" : "names were"}`} given.`,
    );
  const out = typeof values.out === "string" ? values.out : null;
  if (out === "") wrong.push("-o needs a folder that has a name.");
  if (NEEDS_OUT.includes(command) && out === null && values.out !== true)
    wrong.push(`rowline ${command} writes papers: say where with -o DIR.`);
  if (inputs.filter((name) => name === "-").length > 1) wrong.push("Only one file can come from stdin.");
  if (wrong.length > 0) return { kind: "wrong", sentences: wrong };
  return { kind: "run", args: { command, inputs, out, json: values.json === true, quiet: values.quiet === true } };
}
