/** Writes PROOFS.md from the proofs: `npm run proofs`. */
import { writeFileSync } from "node:fs";
import { allProofs, proofsPage } from "../proofs/proofs.ts";

writeFileSync(new URL("../PROOFS.md", import.meta.url), proofsPage(allProofs));
