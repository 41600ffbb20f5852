// An old build must not lend the new one a file that is no longer in the source.
import { rmSync } from "node:fs";

rmSync(new URL("../dist", import.meta.url), { recursive: true, force: true });
