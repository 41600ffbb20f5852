import { useEffect, useReducer } from "preact/hooks";

/** Draws the component again whenever the source says that it changed. */
export function useHeard(source: { listen(tell: () => void): () => void }): void {
  const [, again] = useReducer((count: number) => count + 1, 0);
  useEffect(() => source.listen(() => again(0)), [source]);
}
