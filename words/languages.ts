import type { AppWords } from "./app.ts";
import type { Words } from "./words.ts";

/** The languages there are, each loaded when chosen. The app's words and the planner's sentences are two files. */
export const LANGUAGES: Record<string, { name: string; app: () => Promise<AppWords>; plan: () => Promise<Words> }> = {
  en: {
    name: "English",
    app: async () => (await import("./en/app.ts")).app,
    plan: async () => (await import("./en/index.ts")).en,
  },
};
