import { useEffect, useState } from "preact/hooks";
import { LANGUAGES } from "../../../words/languages.ts";
import type { Words } from "../../../words/words.ts";
import type { App } from "./step.ts";

/** The sentences of papers in the app's language, loaded when a step first needs them. Null until they are here. */
export function usePlanWords(app: App): Words | null {
  const { language } = app.words;
  const [words, setWords] = useState<Words | null>(null);
  useEffect(() => {
    let here = true;
    void LANGUAGES[language]!.plan().then((loaded) => here && setWords(loaded));
    return () => {
      here = false;
    };
  }, [language]);
  return words?.language === language ? words : null;
}
