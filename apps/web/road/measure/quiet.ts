import { useEffect } from "preact/hooks";
import type { App } from "../step.ts";

/** While something is measured the drawing shows that, and what the plan has to say stays in the list. */
export function useQuiet(app: App): void {
  useEffect(() => {
    app.view({ hide: ["findings"] });
    return () => app.view(null);
  }, []);
}
