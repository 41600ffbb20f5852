// The main job on the example: plans the courtyard, proves it, writes every paper to out/demo.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const at = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));
const run = spawnSync(
  process.execPath,
  [at("dist/apps/cli/main.js"), "plan", "examples/courtyard.job.json", "-o", "out/demo"],
  {
    cwd: at("."),
    stdio: "inherit",
  },
);
if (run.status === 3)
  console.log(
    "\nExit 3: a finding says stop, as it should here: this base is to be made right before a board is laid.",
  );
process.exitCode = run.status === 0 || run.status === 3 ? 0 : (run.status ?? 1);
