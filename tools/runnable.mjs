// A rebuilt command must stay runnable: the compiler writes it without leave to run.
import { chmodSync } from "node:fs";

chmodSync(new URL("../dist/apps/cli/main.js", import.meta.url), 0o755);
