import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";

/** Writes sw.js: the service worker with the list of all files of this build and a name made from their content. */
export function offlinePlugin(source: string, publicFolder: string): Plugin {
  return {
    name: "rowline-offline",
    apply: "build",
    enforce: "post",
    buildStart() {
      this.emitFile({ type: "chunk", id: source, fileName: "sw.js" });
    },
    generateBundle(_options, bundle) {
      const hash = createHash("sha256");
      const files: string[] = [];
      for (const name of Object.keys(bundle).sort()) {
        if (name === "sw.js") continue;
        const part = bundle[name]!;
        files.push(name);
        hash.update(name).update(part.type === "chunk" ? part.code : part.source);
      }
      for (const name of readdirSync(publicFolder).sort()) {
        files.push(name);
        hash.update(name).update(readFileSync(join(publicFolder, name)));
      }
      const worker = bundle["sw.js"];
      if (worker?.type !== "chunk" || worker.imports.length > 0) throw new Error("sw.js has to be one file");
      const given = `const ROWLINE_FILES=${JSON.stringify(files)},ROWLINE_BUILD="${hash.digest("hex").slice(0, 16)}";`;
      worker.code = given + worker.code;
    },
  };
}
